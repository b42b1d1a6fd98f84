"""Live load of ordinary roofs."""

ROOF_LIVE_PSF = 20.0
"""Least uniform live load of an ordinary flat, pitched or curved roof, not reduced, on the
horizontal projection [psf].

Source: IBC 2021, Table 1607.1 (row of roofs) and ASCE 7-16, Table 4.3-1 [from memory].
"""
