"""E-601: the single-line diagram of any system that is a tree toward the utility."""
