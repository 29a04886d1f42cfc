"""The plan on paper and as a table: a pure function of the request, the plan and a unit; knows no saw."""
