"""What texts name, resolved: one collector of what there is, and a module of judges for each
category of names.

``nouns`` knows the trade's nouns, ``world`` gathers what the source has of them, and ``judges``
lists the judges by the check that tells what they find. A name of no category is left alone.
"""
