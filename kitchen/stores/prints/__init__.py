"""The papers of the stores as they would be printed now: kit labels, issue sheet, requisition sheet."""
