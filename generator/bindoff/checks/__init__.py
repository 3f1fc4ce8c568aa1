"""The technical editor's work: checks over a planned and composed pattern, run before a build."""
