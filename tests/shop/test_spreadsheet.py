"""Reading a sheet saved as CSV: its letters, what parts its cells, where each cell is (RFC 4180 for quotes)."""

import csv
import io

import pytest

from hooks.shop.spreadsheet import LARGEST, MOST_ROWS, NotASheet, letter, read_sheet

TABLE = [["Date", "What", "Ø"], ["2024-03-05", "it hit; hard, twice\tover", "6,5"], ["", 'the "good" one\nfell', "½"]]


def written(mark: str, line_end: str = "\r\n", table: list[list[str]] = TABLE) -> str:
    """The table as another program would save it."""
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=mark, lineterminator=line_end).writerows(table)
    return text.getvalue()


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("letters", ["utf-8", "utf-8-sig", "cp1252", "latin-1", "utf-16"])
@pytest.mark.parametrize("line_end", ["\r\n", "\n", "\r"])
def test_every_way_of_saving_gives_the_same_cells(mark: str, letters: str, line_end: str) -> None:
    """Marks between cells, letters and line ends in every combination; other marks stay in their cells."""
    sheet = read_sheet(written(mark, line_end).encode(letters))
    assert [column.heading for column in sheet.columns] == TABLE[0]
    assert [list(row.cells) for row in sheet.rows] == TABLE[1:]


def test_rows_are_counted_as_a_spreadsheet_shows_them() -> None:
    """Blank rows count and are left out; a line end inside a cell begins no row."""
    sheet = read_sheet(b'\n;;\nDate;What;\n;;\n2024-03-05;"one\ntwo";\n\n2024-03-06;three;\n')
    assert sheet.heading_row == 3
    assert [row.number for row in sheet.rows] == [5, 7]
    assert sheet.rows[0].cells[1] == "one\ntwo"


def test_columns_are_lettered_as_a_spreadsheet_shows_them() -> None:
    """A to Z, then AA; the ends of each length."""
    assert [letter(at) for at in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


def test_short_and_long_rows_keep_their_cells() -> None:
    """A row that ends early has empty cells; one that is too long keeps what is over."""
    sheet = read_sheet(b"a,b\n1\n1,2,3\n")
    assert sheet.rows[0].cell(1) == "" and sheet.rows[1].cells == ("1", "2", "3")


def test_what_parts_the_cells_may_be_said_in_a_first_line() -> None:
    """`sep=;`, which some programs write and do not show: it counts as no row."""
    sheet = read_sheet(b"sep=;\r\na;b\r\n1,5;2,5\r\n")
    assert [one.heading for one in sheet.columns] == ["a", "b"] and sheet.rows[0].number == 2


def test_decimal_commas_do_not_part_cells() -> None:
    """More commas than semicolons in the rows: the mark that makes all rows alike is taken."""
    assert read_sheet(b"a;b;c\n1,5;2,5;3,5\n1,5;2;3,5\n").rows[0].cells == ("1,5", "2,5", "3,5")


@pytest.mark.parametrize(
    ("data", "part"),
    [
        (b"", "nothing is in it"),
        (b"\xef\xbb\xbf\r\n ; ;\r\n", "nothing is in it"),
        (b"PK\x03\x04rest", "a workbook"),
        (b"\xd0\xcf\x11\xe0rest", "a workbook"),
        (b"\xff\xfea", "cannot be read"),
        (b'a,b\n1,2\n1,"open\n', "row 3 holds a quote that is not closed"),
        (b'a,b\n1,"x"y\n', "row 2 holds a quote inside"),
        (b"a,b\n" + b"x" * 200_000 + b",2\n", "row 2 holds a cell that is too long"),
        (b"a,b\n" + b"1,2\n" * (MOST_ROWS + 1), "too much"),
        (b"a,b\n" + b"\n" * (LARGEST - 10), "too much"),
        (b"a\n" + b"," * (LARGEST - 10), "too much"),
        (b"x" * (LARGEST + 1), "too large"),
    ],
)
def test_what_is_no_sheet_is_told_in_one_line(data: bytes, part: str) -> None:
    """A row that a quote is left open in is not swallowed with the rest of the file."""
    with pytest.raises(NotASheet, match=part) as told:
        read_sheet(data)
    assert "\n" not in str(told.value)
