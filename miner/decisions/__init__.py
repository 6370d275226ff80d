"""What the editor decided: stored beside the draft, carried over to a re-mined one, applied to what is published."""
