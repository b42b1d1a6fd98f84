"""PDF files as others send them: data sheets in order, odd ones, and malicious ones."""

from __future__ import annotations

import zlib
from collections.abc import Callable
from io import BytesIO

import pikepdf
from pikepdf import Array, AttachedFileSpec, Dictionary, Encryption, Name, Pdf, Permissions
from reportlab.pdfgen.canvas import Canvas

LETTER = (612.0, 792.0)
WORDS = "MODULE TR-402, 402 W"


def document(pages: int = 1, size: tuple[float, float] = LETTER) -> bytes:
    """A data sheet of so many pages, each with its number in its text."""
    content = BytesIO()
    canvas = Canvas(content, pagesize=size, invariant=1)
    for number in range(1, pages + 1):
        canvas.drawString(72, size[1] / 2, f"{WORDS}, PAGE {number}")
        canvas.rect(36, 36, size[0] - 72, size[1] - 72)
        canvas.showPage()
    canvas.save()
    return content.getvalue()


def bare(pages: int) -> bytes:
    """A document of so many empty pages, made quickly."""
    kids = b" ".join(b"%d 0 R" % number for number in range(3, 3 + pages))
    objects = [
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /Count %d /Kids [%s] >>" % (pages, kids),
        *[b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] >>"] * pages,
    ]
    made, places = bytearray(b"%PDF-1.7\n"), []
    for number, content in enumerate(objects, 1):
        places.append(len(made))
        made += b"%d 0 obj\n%s\nendobj\n" % (number, content)
    start, count = len(made), len(objects) + 1
    made += b"xref\n0 %d\n0000000000 65535 f \n" % count
    made += b"".join(b"%010d 00000 n \n" % place for place in places)
    made += b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (count, start)
    return bytes(made)


def changed(change: Callable[[Pdf], object], content: bytes | None = None, **how: object) -> bytes:
    """A document after a change."""
    made = BytesIO()
    with pikepdf.open(BytesIO(content or document())) as pdf:
        change(pdf)
        pdf.save(made, **how)  # type: ignore[arg-type]
    return made.getvalue()


def with_javascript(pdf: Pdf) -> None:
    """Scripts that run on opening, on turning to the page, and by name."""
    script = Dictionary(S=Name.JavaScript, JS="app.alert('hello')")
    pdf.Root.OpenAction = script
    pdf.pages[0].obj.AA = Dictionary(O=script)
    pdf.Root.Names = Dictionary(JavaScript=Dictionary(Names=Array(["run", script])))


def with_files(pdf: Pdf) -> None:
    """A file attached to the document, and one to its page."""
    pdf.attachments["run.exe"] = AttachedFileSpec(pdf, b"MZ attached", filename="run.exe")
    spec = AttachedFileSpec(pdf, b"MZ on the page", filename="page.exe")
    pdf.pages[0].obj.AF = Array([spec.obj])
    pdf.pages[0].obj.Annots = Array(
        [Dictionary(Type=Name.Annot, Subtype=Name.FileAttachment, Rect=[0, 0, 9, 9], FS=spec.obj)]
    )


def with_links(pdf: Pdf) -> None:
    """A link to a web page, and an action that starts a program."""
    actions = (
        Dictionary(S=Name.URI, URI="https://example.invalid/"),
        Dictionary(S=Name.Launch, F="run.exe"),
    )
    pdf.pages[0].obj.Annots = Array(
        Dictionary(Type=Name.Annot, Subtype=Name.Link, Rect=[0, 0, 99, 99], A=action)
        for action in actions
    )


def with_form(pdf: Pdf) -> None:
    """A form, its one field filled in."""
    look = pdf.make_stream(b"BT /F1 10 Tf 2 2 Td (FILLED IN) Tj ET")
    look.stream_dict = Dictionary(
        Type=Name.XObject,
        Subtype=Name.Form,
        BBox=[0, 0, 100, 20],
        Resources=pdf.pages[0].obj.Resources,
    )
    field = pdf.make_indirect(
        Dictionary(
            Type=Name.Annot,
            Subtype=Name.Widget,
            FT=Name.Tx,
            T="power",
            V="402",
            F=4,
            Rect=[72, 500, 172, 520],
            AP=Dictionary(N=look),
        )
    )
    pdf.pages[0].obj.Annots = Array([field])
    pdf.Root.AcroForm = Dictionary(Fields=Array([field]))


def with_metadata(pdf: Pdf) -> None:
    """Metadata of document and page, and a private corner for a drawing program."""
    pdf.docinfo["/Author"] = "SOMEBODY"
    pdf.pages[0].obj.Metadata = pdf.make_stream(b"<x:xmpmeta>SOMEBODY</x:xmpmeta>")
    pdf.pages[0].obj.PieceInfo = Dictionary(Private=Dictionary(By="SOMEBODY"))


def with_layers(pdf: Pdf) -> None:
    """A layer that is shown."""
    group = pdf.make_indirect(Dictionary(Type=Name.OCG, Name="NOTES"))
    pdf.Root.OCProperties = Dictionary(OCGs=Array([group]), D=Dictionary(ON=Array([group])))


def with_a_hidden_layer(pdf: Pdf) -> None:
    """A layer that is switched off."""
    with_layers(pdf)
    properties = pdf.Root.OCProperties
    properties.D = Dictionary(OFF=properties.OCGs)


def with_an_unprinted_layer(pdf: Pdf) -> None:
    """A layer that is shown on screen and not in print."""
    with_layers(pdf)
    pdf.Root.OCProperties.OCGs[0].Usage = Dictionary(Print=Dictionary(PrintState=Name.OFF))


def as_portfolio(pdf: Pdf) -> None:
    """A cover over several files."""
    with_files(pdf)
    pdf.Root.Collection = Dictionary(Type=Name.Collection)


def as_program_form(pdf: Pdf) -> None:
    """A form that only one program can show."""
    with_form(pdf)
    pdf.Root.AcroForm.XFA = pdf.make_stream(b"<xdp/>")


def with_an_outside_stream(pdf: Pdf) -> None:
    """A page whose drawing stands in another file."""
    stream = pdf.make_stream(b"")
    stream.stream_dict.F = "/etc/passwd"
    pdf.pages[0].obj.Contents = stream


def of_size(width: float, height: float) -> Callable[[Pdf], None]:
    """A page of a size in points."""

    def change(pdf: Pdf) -> None:
        pdf.pages[0].obj.MediaBox = Array([0, 0, width, height])

    return change


def without_pages(pdf: Pdf) -> None:
    """A document that has none."""
    del pdf.pages[0]


def nothing(pdf: Pdf) -> None:
    """A document as it is."""


def locked(user: str = "") -> bytes:
    """A document with a password, or only with restrictions."""
    barred = Permissions(modify_other=False, extract=False)
    return changed(nothing, encryption=Encryption(owner="boss", user=user, allow=barred))


def unpacking() -> bytes:
    """A small file that has to unpack a stream to 600 MB to be read."""
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(bytes(2**20)) for _ in range(600)) + packer.flush()
    head = b"%PDF-1.7\n"
    how = b"/Type /ObjStm /N 1 /First 6 /Filter /FlateDecode /Length %d" % len(packed)
    objects = b"1 0 obj\n<< %s >>\nstream\n%s\nendstream\nendobj\n" % (how, packed)
    start = len(head) + len(objects)
    places = ((0, 0, 0), (1, len(head), 0), (2, 1, 0), (1, start, 0))
    table = b"".join(
        kind.to_bytes(1, "big") + place.to_bytes(4, "big") + more.to_bytes(1, "big")
        for kind, place, more in places
    )
    how = b"/Type /XRef /Size 4 /W [1 4 1] /Root 2 0 R /Length %d" % len(table)
    index = b"3 0 obj\n<< %s >>\nstream\n%s\nendstream\nendobj\n" % (how, table)
    return head + objects + index + b"startxref\n%d\n%%%%EOF\n" % start
