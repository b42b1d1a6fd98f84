"""Where rails and attachments stand so that the fewest hold an array within every limit."""

from planset.design.fewest.find import fewest_plans

__all__ = ["fewest_plans"]
