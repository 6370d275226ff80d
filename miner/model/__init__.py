"""The contract: recordings, drafts, findings, graphs."""
