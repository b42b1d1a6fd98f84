"""What a writer makes of the set of `pages` under several seeds of Python's hashes."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path


def digests(script: str, folder: Path, seeds: tuple[str, ...]) -> set[str]:
    """The digest of the file a script writes, in a process of its own per seed.

    Args:
        script: What the process runs; the path of the file is `out`, the set `DRAWING`.
        folder: Where the files go.
        seeds: Values of PYTHONHASHSEED.
    """
    begin = "import sys; from pathlib import Path; from pages import DRAWING; "
    found = set()
    for seed in seeds:
        file = folder / seed
        environment = os.environ | {
            "PYTHONHASHSEED": seed,
            "PYTHONPATH": os.pathsep.join(filter(None, sys.path)),
        }
        command = f"{begin}out = Path(sys.argv[1]); {script}"
        subprocess.run([sys.executable, "-c", command, str(file)], check=True, env=environment)
        found.add(hashlib.sha256(file.read_bytes()).hexdigest())
    return found
