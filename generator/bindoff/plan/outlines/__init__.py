"""What pieces look like laid flat: outlines that follow from the rows they are worked in."""
