"""The sums: formulas, calculators and how an answer is shown. Standard library only."""
