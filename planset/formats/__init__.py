"""Drawing files: the only room that touches DXF and PDF.

Writers take neutral pages and know nothing of a job, so the formats cannot disagree.
"""
