"""The neutral page: primitives, layers, text measuring, dimensions, placement, tables.

Knows nothing of the trade and nothing of file formats. Model coordinates are inches at true
size; paper coordinates are inches from the lower left corner of the sheet.
"""
