"""ASCE 7-16, Minimum Design Loads and Associated Criteria for Buildings and Other Structures."""
