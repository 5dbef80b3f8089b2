"""YAML to the validated model, with a file and a line for every fault.

The only package that uses yaml and pydantic. Data flows through it so: `files` (nothing but plain
files) -> `nodes` (text with places) -> `overlay` (texts of another language) -> `*_shapes` and
`validate` -> `shop`, `sources`, `reactions`, `relations`, `problems`, `lessons`, `modules`,
`sheets`, `handouts` (the model) -> `curriculum` (all of it together). Faults are collected on the
way by `gather`.
"""
