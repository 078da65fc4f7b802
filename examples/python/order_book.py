"""Quotes for the lines of an order book in a database: bars to buy, hours and prices, written back in one transaction.

    python examples/python/order_book.py orders.db

The plans of the parts are documents in the database, with their rates. A line at fault is recorded with its fault and its
place in the plan, and the others are quoted all the same. A second run gives the same rows. SQLite here; any database with
the interface of PEP 249 will do: give `quote_orders` its connection and the mark of its parameters. Amounts are whole
cents, which every database adds without rounding. Put your own plans and orders in the place of the invented ones.
"""

import math
import pathlib
import sqlite3
import sys
from dataclasses import astuple, dataclass
from decimal import Decimal
from typing import Any

import tenths

TABLES = (
    "CREATE TABLE IF NOT EXISTS parts (part TEXT PRIMARY KEY, plan TEXT NOT NULL)",
    "CREATE TABLE IF NOT EXISTS orders (line INTEGER PRIMARY KEY, part TEXT NOT NULL, quantity INTEGER NOT NULL)",
    """CREATE TABLE IF NOT EXISTS quotes (
        line INTEGER PRIMARY KEY, start_quantity INTEGER, bars INTEGER, hours NUMERIC(12, 6),
        price_each INTEGER, total INTEGER, currency TEXT, fault TEXT, place TEXT)""",
    """CREATE TABLE IF NOT EXISTS quote_lines (
        line INTEGER, position INTEGER, name TEXT, amount INTEGER, basis TEXT, PRIMARY KEY (line, position))""",
)


@dataclass
class Answer:
    """A row of `quotes`: the figures, or the fault and its place in the plan."""

    line: int
    start_quantity: int | None = None
    bars: int | None = None
    hours: float | None = None
    price_each: int | None = None  # in cents
    total: int | None = None
    currency: str | None = None
    fault: str | None = None
    place: str | None = None


def least_units(amount: Decimal) -> int:
    """An amount in cents, or in whatever its currency ends with."""
    sign, digits, _ = amount.as_tuple()
    return int(Decimal((sign, digits, 0)))


def quote_line(line: int, document: str | None, quantity: int) -> tuple[Answer, list[tuple[Any, ...]]]:
    """The answer for one line of the order book, and the rows of its price."""
    if document is None:
        return Answer(line, fault="there is no plan of this part", place="/"), []
    try:
        plan = tenths.Plan.from_json(document)
        prices, sheet = plan.quote(quantity), plan.evaluate()
    except (tenths.DomainError, ValueError) as error:
        place, fault = (getattr(error, "faults", None) or [("", str(error))])[0]
        return Answer(line, fault=fault, place=place or "/"), []
    errors = [finding for finding in sheet.findings if finding.severity == "error"]
    if errors:
        return Answer(line, fault=errors[0].message, place=errors[0].place), []
    quote = prices.quotes[0]
    rows = [
        (line, position, row.name, least_units(row.amount), row.basis)
        for position, row in enumerate(quote.lines, 1)
    ]
    answer = Answer(
        line,
        start_quantity=quote.start_quantity,
        bars=math.ceil(quote.start_quantity / sheet.to_dict()["bar"]["parts_per_bar"]),
        hours=round(quote.hours, 6),
        price_each=least_units(quote.price_each),
        total=least_units(quote.total),
        currency=prices.currency,
    )
    return answer, rows


def quote_orders(connection: Any, mark: str = "?") -> tuple[int, int]:
    """Quotes every line of the order book in one transaction; gives how many were quoted and how many are at fault."""
    cursor = connection.cursor()
    try:
        for table in TABLES:
            cursor.execute(table)
        cursor.execute(
            "SELECT line, plan, quantity FROM orders LEFT JOIN parts ON parts.part = orders.part ORDER BY line"
        )
        answers = [quote_line(*row) for row in cursor.fetchall()]
        # What an earlier run wrote is replaced, so that a run after a power cut is a run like any other.
        for table, rows in (
            ("quote_lines", [row for _, rows in answers for row in rows]),
            ("quotes", [astuple(answer) for answer, _ in answers]),
        ):
            cursor.execute(f"DELETE FROM {table}")
            if rows:
                marks = ", ".join([mark] * len(rows[0]))
                cursor.executemany(f"INSERT INTO {table} VALUES ({marks})", rows)
        connection.commit()
    except BaseException:
        connection.rollback()
        raise
    faults = sum(answer.fault is not None for answer, _ in answers)
    return len(answers) - faults, faults


def fill_with_examples(connection: Any, mark: str = "?") -> None:
    """The two example plans, a spoilt copy of one, and orders for them."""
    plans = pathlib.Path(__file__).parents[1] / "plans"
    axle, pin = (plans.joinpath(name).read_text(encoding="utf-8") for name in ("roller_axle.json", "jig_rest_pin.json"))
    cursor = connection.cursor()
    for table in TABLES:
        cursor.execute(table)
    parts = [("axle", axle), ("pin", pin), ("spoilt", axle.replace('"quantity"', '"quanity"', 1))]
    cursor.executemany(f"INSERT INTO parts VALUES ({mark}, {mark})", parts)
    orders = [(1, "axle", 25), (2, "pin", 500), (3, "spoilt", 10), (4, "unknown", 1), (5, "axle", 1), (6, "pin", 0)]
    cursor.executemany(f"INSERT INTO orders VALUES ({mark}, {mark}, {mark})", orders)
    connection.commit()


def main() -> None:
    connection = sqlite3.connect(sys.argv[1] if len(sys.argv) > 1 else ":memory:")
    try:
        is_new = not connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'orders'").fetchone()
        if is_new:
            fill_with_examples(connection)
        quoted, faults = quote_orders(connection)
        for line, total, currency, hours, fault, place in connection.execute(
            "SELECT line, total, currency, hours, fault, place FROM quotes ORDER BY line"
        ):
            if fault is None:
                print(f"line {line}: {total / 100:.2f} {currency}, {hours:.2f} h")
            else:
                print(f"line {line}: {place}: {fault}")
        print(f"{quoted} quoted, {faults} at fault")
    finally:
        connection.close()


if __name__ == "__main__":
    main()
