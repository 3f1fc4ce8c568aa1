"""The colour and yarn plan for the designer: what was chosen, and what other ways cost."""
