"""What is not the same in two plans of a pattern, figure by figure, as data without words."""
