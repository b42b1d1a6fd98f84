"""All rules on pages and on the set, in the order in which their findings are reported."""

from planset.review.contents import data_sheets, figures, items, placeholders
from planset.review.drafting import (
    dimension_true,
    empty_view,
    inside_drawing_area,
    leader_ends,
    links_resolve,
    reserved_areas_empty,
    text_fits_field,
    text_height,
    text_on_line,
    text_on_text,
    views_apart,
)
from planset.review.page_rule import PageRule
from planset.review.set_rule import SetRule

PAGE_RULES: tuple[PageRule, ...] = (
    inside_drawing_area.RULE,
    reserved_areas_empty.RULE,
    views_apart.RULE,
    empty_view.RULE,
    text_height.RULE,
    text_fits_field.RULE,
    text_on_text.RULE,
    text_on_line.RULE,
    dimension_true.RULE,
    leader_ends.RULE,
    links_resolve.RULE,
)

SET_RULES: tuple[SetRule, ...] = (
    items.RULE,
    figures.RULE,
    data_sheets.RULE,
    placeholders.RULE,
)
