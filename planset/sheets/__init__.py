"""One file per sheet: choose what a reader needs and place it on a page."""
