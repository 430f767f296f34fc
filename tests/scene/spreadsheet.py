"""A spreadsheet, as far as it spoils tables: reads CSV on standard input as a spreadsheet would,
turning cells into numbers, dates and truth values where they look like them, and writes CSV again
the way the named locale does. No product's code; only Python's csv module."""

import csv
import re
import sys

locale = sys.argv[1]  # "point" or "comma"
out_delimiter = "," if locale == "point" else ";"
text = sys.stdin.buffer.read().decode("utf-8-sig")
dialect_delimiter = ";" if text.split("\n")[0].count(";") > text.split("\n")[0].count(",") else ","
months = "jan feb mar apr may jun jul aug sep oct nov dec".split()


def shown(cell):
    formula = re.fullmatch(r'="((?:[^"]|"")*)"', cell, re.S)
    if formula:
        return formula.group(1).replace('""', '"')
    if cell.startswith(("=", "@")) or re.fullmatch(r"[+-][^\d.,].*", cell):
        return "#NAME?"
    number = cell.replace(",", ".") if locale == "comma" else cell
    if re.fullmatch(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?", number):
        value = "%.15g" % float(number)
        return value.replace(".", ",") if locale == "comma" else value
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", cell):
        year, month, day = cell.split("-")
        return f"{day}/{month}/{year}"
    if cell[:3].lower() in months and re.fullmatch(r"[A-Za-z]{3,9}[- ]?\d{1,2}", cell):
        return "1-" + cell[:3].capitalize()
    if cell.lower() in ("true", "false"):
        return cell.upper()
    return cell


rows = list(csv.reader(text.splitlines(keepends=True), delimiter=dialect_delimiter))
out = csv.writer(sys.stdout, delimiter=out_delimiter, lineterminator="\r\n")
for row in rows:
    out.writerow([shown(cell) for cell in row])
out.writerow([])
out.writerow([""] * len(rows[0]))
