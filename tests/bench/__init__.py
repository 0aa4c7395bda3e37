"""Benchmarks: each prints its figures as ratios against a floor measured in the same run; nothing is asserted.

Run them all with ``python -m tests.bench``, or one by name: ``python -m tests.bench first_question``.
"""
