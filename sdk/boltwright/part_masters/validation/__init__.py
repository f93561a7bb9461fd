"""A whole catalogue through the service: in parts, in bounded memory, resumed where it stopped, with a report.

- `sources`: a file in `parts`, by its suffix: `csv_source` (`encodings`), `ndjson_source`, `sheet_source`
- `columns`: which columns are read, asked before rows are sent
- `place`: where the answer is written
- `answers`: the rows of an answer, whatever its form; `passed_on`: those of a part, passed on as they came
- `in_flight`: parts over several connections at once, their answers in order
- `repeats`: rows that repeat an earlier one, over all parts
- `rows`: the same for rows of a program instead of a file
- `run`: file in, file of findings out; `state` says how far it is
- `report`: findings as one HTML file
- `impact`: a file held against a change of standard, edition or coating
"""
