"""YAML to the validated model, with a file and a line for every fault.

The only package that uses yaml and pydantic. Data flows through it in the order of its files:
`nodes` (text with places) -> `schema`, `validate` (shapes) -> `shop`, `relations`, `problems`,
`lessons` (the model) -> `curriculum` (all of it together).
"""
