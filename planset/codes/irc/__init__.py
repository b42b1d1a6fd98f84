"""International Residential Code (IRC); the edition is an argument of every function."""
