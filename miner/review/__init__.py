"""The local server on which an editor works through drafts and findings."""
