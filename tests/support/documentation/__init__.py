"""The examples in the documentation: found in Markdown, run, compared, and written anew on request.

A `bash` block that holds one `curl` command, followed by a `json` block, is an example. The answer may be shortened:
objects show a part of their members; a list that ends in "…" shows its beginning; the value "…" stands for any value,
and "?" is replaced by the whole value when the examples are refreshed. Numbers are compared digit by digit;
statistics, which have more than twelve, to nine digits.
"""
