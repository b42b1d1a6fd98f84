"""ASCE 7-22, Minimum Design Loads and Associated Criteria for Buildings and Other Structures."""
