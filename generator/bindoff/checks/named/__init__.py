"""What texts name, resolved: one reader of names, one collector of what there is, and the judges.

``nouns`` knows the trade's nouns, ``reading`` finds them in sentences, ``world`` gathers what the
source has of them and at which place. Each module named after a category judges its own; the check
that runs them all is ``checks/references.py``. A name of no category is left alone.
"""
