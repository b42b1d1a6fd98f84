"""What must agree within a job's electrical section, and with arrays and catalog entries."""
