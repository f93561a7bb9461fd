"""A catalogue of invented part masters with its truth, to measure how well the validation reads and judges.

Every row begins with a part that the generator made up from the printed tables; the generator then writes it down as
people do, in its own words (never those of the lexicon under test), and spoils about one row in twenty in a known way.
The truth is what it meant and what it spoilt; the validation is never asked.
"""
