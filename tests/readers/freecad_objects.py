"""Run by FreeCAD itself: print the objects it makes of the file that DXF names, as JSON."""

import json
import os

import FreeCAD  # type: ignore[import-not-found]
import Import  # type: ignore[import-not-found]

MM_DIGITS = 6

FreeCAD.ParamGet("User parameter:BaseApp/Preferences/Mod/Draft").SetBool("dxftext", True)
document = FreeCAD.newDocument("read")
Import.readDXF(os.environ["DXF"], document.Name)
objects = []
for item in document.Objects:
    told = {"kind": item.TypeId, "label": item.Label}
    if hasattr(item, "Shape"):
        box = item.Shape.BoundBox
        told["shape"] = item.Shape.ShapeType
        told["edges"] = len(item.Shape.Edges)
        told["size"] = [round(box.XLength, MM_DIGITS), round(box.YLength, MM_DIGITS)]
    if hasattr(item, "LabelText"):
        told["text"] = " ".join(item.LabelText)
    if hasattr(item, "Distance"):
        told["distance"] = item.Distance.Value
    objects.append(told)
print("\nOBJECTS " + json.dumps(objects))  # noqa: T201 - how it answers
