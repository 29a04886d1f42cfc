"""How the keys are put before a person: the first job file, the schema a form is made from."""
