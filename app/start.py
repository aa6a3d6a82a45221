"""Start of the window: application, settings, first document."""
