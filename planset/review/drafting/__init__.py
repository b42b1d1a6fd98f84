"""Is a page well drafted: legible, in its place, true to what it shows."""
