"""Lines of a CSV text from cells that are text."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence


class CsvLines:
    """Writes lines as `csv.writer` does, several times faster where no cell needs quotes."""

    def __init__(self, delimiter: str) -> None:
        """Start with nothing written."""
        self._delimiter = delimiter
        self._text = io.StringIO(newline="")
        self._writer = csv.writer(self._text, delimiter=delimiter, lineterminator="\r\n")

    def encoded(self, rows: Iterable[Sequence[str]]) -> bytes:
        """Return rows of two or more cells as UTF-8; what is no character becomes a question mark."""
        text, delimiter = self._text, self._delimiter
        text.seek(0)
        text.truncate()
        for cells in rows:
            line = delimiter.join(cells)
            plain = '"' not in line and "\n" not in line and "\r" not in line
            if plain and line.count(delimiter) == len(cells) - 1:
                text.write(line + "\r\n")
            else:
                self._writer.writerow(cells)
        return text.getvalue().encode("utf-8", errors="replace")
