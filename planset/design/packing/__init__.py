"""As many modules as fit on a plane, and proof that no grid holds more."""

from planset.design.packing.pack import Packing, pack

__all__ = ["Packing", "pack"]
