"""The order book in a database, against the integers of SQL itself: in SQLite and in PostgreSQL."""

import getpass
import os
import pathlib
import runpy
import shutil
import sqlite3
import stat
import subprocess
import tempfile

import pytest
import tenths

EXAMPLE = pathlib.Path(__file__).parents[2] / "examples/python/order_book.py"


@pytest.fixture(scope="module")
def book():
    return runpy.run_path(str(EXAMPLE))


@pytest.fixture
def connection():
    connection = sqlite3.connect(":memory:")
    yield connection
    connection.close()


@pytest.fixture(scope="module")
def postgres():
    """A server of this module's own, on a socket in a folder, without a port."""
    pytest.importorskip("psycopg", reason="psycopg is not installed: the order book was not tried with PostgreSQL")
    programs = sorted(pathlib.Path("/usr/lib/postgresql").glob("*/bin"))
    if not programs:
        pytest.skip("PostgreSQL is not installed: the order book was not tried with it")
    # Its server refuses to run as root, and the other user must be able to write to nowhere.
    user, as_user = getpass.getuser(), []
    if os.getuid() == 0:
        user, as_user = "postgres", ["runuser", "-u", "postgres", "--"]
        if not os.stat(os.devnull).st_mode & stat.S_IWOTH:
            pytest.skip(f"{os.devnull} is closed to the user of PostgreSQL: the order book was not tried with it")

    folder = pathlib.Path(tempfile.mkdtemp())
    shutil.chown(folder, user)

    def run(program, *words):
        command = [*as_user, programs[-1] / program, *words]
        done = subprocess.run(command, capture_output=True, text=True, cwd=folder)
        assert done.returncode == 0, done.stderr

    run("initdb", "-D", folder / "data", "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync")
    options = f"-c listen_addresses='' -c unix_socket_directories={folder} -c fsync=off"
    run("pg_ctl", "-D", folder / "data", "-o", options, "-l", folder / "log", "-w", "start")
    try:
        yield f"host={folder} user={user} dbname=postgres"
    finally:
        run("pg_ctl", "-D", folder / "data", "-m", "immediate", "stop")
        shutil.rmtree(folder)


def rows(connection, query):
    cursor = connection.cursor()
    cursor.execute(query)
    return cursor.fetchall()


def judged(connection):
    """What holds of the quotes by the database's own whole numbers."""
    assert rows(connection, "SELECT line FROM quotes WHERE fault IS NULL ORDER BY line") == [(1,), (2,), (5,)]
    assert rows(connection, "SELECT line FROM quotes WHERE fault IS NOT NULL AND total IS NOT NULL") == []
    sums = """SELECT quotes.line, SUM(amount), MAX(total), MAX(quantity * price_each) FROM quotes
        JOIN quote_lines ON quote_lines.line = quotes.line JOIN orders ON orders.line = quotes.line
        GROUP BY quotes.line ORDER BY quotes.line"""
    found = rows(connection, sums)
    assert len(found) == 3 and all(lines == total for _, lines, total, _ in found)
    # Of the pin the price of the lot governs.
    assert [line for line, _, total, pieces in found if total == pieces] == [1, 5]
    faults = dict(rows(connection, "SELECT line, place FROM quotes WHERE fault IS NOT NULL"))
    assert faults == {3: "/part/quanity", 4: "/", 6: "/quantities"}
    # What the library itself says of the plan, to the cent.
    plan = tenths.Plan.from_json(rows(connection, "SELECT plan FROM parts WHERE part = 'axle'")[0][0])
    quote = plan.quote(25).quotes[0]
    kept = rows(connection, "SELECT start_quantity, price_each, total FROM quotes WHERE line = 1")
    assert kept == [(quote.start_quantity, int(100 * quote.price_each), int(100 * quote.total))]
    # 19 pieces from a bar, as the sheet says: 28 pieces take two.
    assert rows(connection, "SELECT bars FROM quotes WHERE line = 1") == [(2,)]


def test_every_sound_line_is_quoted_and_every_fault_recorded(book, connection):
    book["fill_with_examples"](connection)
    assert book["quote_orders"](connection) == (3, 3)
    judged(connection)


def test_a_second_run_gives_the_same_rows(book, connection):
    book["fill_with_examples"](connection)
    book["quote_orders"](connection)
    before = list(connection.iterdump())
    assert book["quote_orders"](connection) == (3, 3)
    assert list(connection.iterdump()) == before
    connection.execute("DELETE FROM orders WHERE line <> 2")
    assert book["quote_orders"](connection) == (1, 0)
    assert rows(connection, "SELECT line FROM quotes") == [(2,)]


class _Failing:
    """A connection whose database fails as the last rows are written."""

    def __init__(self, connection):
        self.connection = connection

    def cursor(self):
        return self

    def execute(self, *words):
        self.last = self.connection.execute(*words)

    def fetchall(self):
        return self.last.fetchall()

    def executemany(self, statement, rows):
        if statement.startswith("INSERT INTO quotes"):
            raise sqlite3.OperationalError("the disk is full")
        self.connection.executemany(statement, rows)

    def commit(self):
        self.connection.commit()

    def rollback(self):
        self.connection.rollback()


def test_a_run_that_fails_leaves_the_quotes_as_they_were(book, connection):
    book["fill_with_examples"](connection)
    book["quote_orders"](connection)
    before = list(connection.iterdump())
    connection.execute("UPDATE orders SET quantity = 30 WHERE line = 1")
    connection.commit()
    with pytest.raises(sqlite3.OperationalError):
        book["quote_orders"](_Failing(connection))
    after = list(connection.iterdump())
    assert [line for line in after if "quotes" in line] == [line for line in before if "quotes" in line]


@pytest.mark.libraries
def test_postgresql_gives_the_same(book, postgres):
    import psycopg

    with psycopg.connect(postgres) as connection:
        book["fill_with_examples"](connection, "%s")
        assert book["quote_orders"](connection, "%s") == (3, 3)
        assert book["quote_orders"](connection, "%s") == (3, 3)
        judged(connection)
