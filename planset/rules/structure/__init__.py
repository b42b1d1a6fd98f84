"""Wind, attachments and what they stand on."""
