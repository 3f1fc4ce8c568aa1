"""What sentences say of the work, each resolved to what it speaks of and held against the plan.

A statement that can't be resolved to one place of the plan is left alone.
"""
