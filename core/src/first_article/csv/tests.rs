use super::*;
use crate::first_article::GaugeResult;
use proptest::prelude::*;

fn read(text: &str, form: &str) -> Result<ReadingTable, CsvError> {
    ReadingTable::from_csv(text.as_bytes(), &CsvForm::parse(form)?)
}

fn table(text: &str, form: &str) -> ReadingTable {
    read(text, form).unwrap_or_else(|error| panic!("{error}"))
}

fn sizes(table: &ReadingTable, number: u32) -> Vec<String> {
    let told = |reading: &PieceReading| match reading.value {
        MeasuredValue::Size(size) => size.to_string(),
        MeasuredValue::Gauge(result) => result.to_string(),
    };
    table.of(number).iter().map(told).collect()
}

fn faults(text: &str, form: &str) -> Vec<String> {
    let error = read(text, form).expect_err(text);
    error.to_string().lines().map(String::from).collect()
}

#[test]
fn rows_are_readings() {
    let text = "\u{feff}Number,Measured,Unit,Measured with,By,Date\r\n\
                1,12.005,mm,\"mic \"\"7\"\", 0-25\",ak,2026-11-29\r\n\
                ,,,,,\r\n\
                2,go entered; no-go refused,,plug P4,ak,\r\n\
                1.0,+11.998,mm,,,\r\n\
                3,7/16 in,,,,\r\n\
                4,,mm,,,\r\n";
    let read = table(text, "");
    assert_eq!(sizes(&read, 1), ["12.005 mm", "11.998 mm"]);
    assert_eq!(read.of(1)[0].measured_with.as_deref(), Some("mic \"7\", 0-25"));
    assert_eq!((read.of(1)[1].piece, read.of(1)[1].by.as_deref()), (2, None));
    let gauged = GaugeResult { go_entered: Some(true), no_go_entered: Some(false) };
    assert_eq!(read.of(2)[0].value, MeasuredValue::Gauge(gauged));
    assert_eq!(sizes(&read, 3), ["0.4375 in"]);
    assert!(read.of(4).is_empty() && read.len() == 4);
}

#[test]
fn a_decimal_comma_and_own_headings_are_read() {
    let text = "Merkmal;Istwert;Teil\n3;12,05;2\n3;-0,5;1\n";
    let form = "units=mm; decimal=comma; number=Merkmal; measured=istwert; piece=Teil";
    let read = table(text, form);
    assert_eq!(sizes(&read, 3), ["12.05 mm", "-0.5 mm"]);
    assert_eq!(read.of(3)[0].piece, 2);
    let tabs = table("number\tmeasured\n1\t12\n", "units=in; delimiter=tab");
    assert_eq!(sizes(&tabs, 1), ["12 in"]);
    assert_eq!(sizes(&table("number\tmeasured\n1\t12\n", "units=in"), 1), ["12 in"]);
    // A single column of commas within quotes decides nothing.
    assert_eq!(sizes(&table("number;measured;\"a,b,c,d\"\n1;12;x\n", "units=mm"), 1), ["12 mm"]);
}

#[test]
fn a_line_of_the_separator_and_a_unit_in_the_cell_are_read() {
    for text in ["sep=;\nnumber;measured\n1;12\n", "\u{feff}SEP=;\r\nnumber;measured\r\n1;12\r\n"] {
        assert_eq!(sizes(&table(text, "units=mm"), 1), ["12 mm"]);
    }
    for cell in ["12 mm", "12mm", "12"] {
        assert_eq!(sizes(&table(&format!("number,measured,unit\n1,{cell},mm\n"), "units=in"), 1), ["12 mm"]);
    }
    // The units of the file and of the row are those of bare numbers.
    assert_eq!(sizes(&table("number,measured,unit\n1,44.5 mm,in\n", ""), 1), ["44.5 mm"]);
    assert_eq!(sizes(&table("number,measured\n1,7/16 in\n", "units=mm"), 1), ["0.4375 in"]);
}

#[test]
fn faults_are_told_by_row_and_column() {
    let text = "number,measured,piece\n1,12.0x,1\n0,12,1\n2,12\n3,NaN,1\n3,12,1\n3,12.1,1\n,12,1\n4,12,1.5\n5,\"12,5\",1\n";
    let told = faults(text, "units=mm");
    let wanted = [
        "row 2, column `measured`:",
        "row 3, column `number`: `0` is not the number of a characteristic, e.g. 3",
        "row 4: has 2 cells, and the first row has 3.",
        "row 5, column `measured`: `NaN` is not a reading.",
        "row 7, column `piece`: piece 1 has a reading of characteristic 3 already",
        "row 8, column `number`: is empty; expected the number of a characteristic",
        "row 9, column `piece`: `1.5` is not the number of the piece, from 1",
        "row 10, column `measured`: `12,5` has a comma. Fix: read it with a decimal comma",
    ];
    assert_eq!(told.len(), wanted.len(), "{told:#?}");
    for (told, wanted) in told.iter().zip(wanted) {
        assert!(told.starts_with(wanted), "{told} where {wanted}");
    }
    let many = format!("number,measured\n{}", "1,x\n".repeat(500));
    assert_eq!(faults(&many, "units=mm").last().map(String::as_str), Some("and 480 more"));
}

#[test]
fn files_that_are_no_tables_are_refused() {
    for (text, form, why) in [
        ("", "", "there is no row of headings"),
        (",,\n", "", "there is no row of headings"),
        ("number,value\n1,2\n", "", "column `measured`: is not in the first row, which has number, value"),
        ("number,measured,Measured\n", "", "column `measured`: appears twice in the first row"),
        ("number,measured\n1,12\n", "piece=Serial", "column `Serial`: is not in the first row"),
        ("number,measured\n1,12\n", "", "`12` needs a unit. Fix: state the units of the file"),
        ("number,measured\n1,\"12\n", "units=mm", "row 2: a quote is not closed"),
        ("number,measured\n1,\"12\"x\n", "units=mm", "row 2: text follows a closing quote"),
        ("number;measured\n1;1.200,5\n", "units=mm;decimal=comma", "has a comma and a point"),
        ("number,measured,unit\n1,12,parsec\n", "", "parsec"),
        ("number,measured\n1,12\n", "units=cm", "`units=cm` is not valid here; expected `mm` or `in`"),
        (
            "number,measured\n1,12\n",
            "colour=red",
            "there is no column `colour`; expected one of number, piece",
        ),
        ("number,measured\n1,go refused; no-go entered\n", "", "is impossible"),
        ("number;measured;unit\n1;44.500;mm\n", "decimal=comma", "`44.500` has a point"),
        ("number;measured\n1;1.752 in\n", "decimal=comma", "`1.752 in` has a point"),
        ("sep=|\nnumber|measured\n1|2\n", "", "must be a comma, a semicolon or a tab, not `|`"),
        ("sep=;\nnumber;measured\n1;x\n", "units=mm", "row 2, column `measured`"),
    ] {
        let error = read(text, form).unwrap_err().to_string();
        assert!(error.contains(why), "{text}: {error}");
    }
    let form = CsvForm::default();
    let latin =
        ReadingTable::from_csv(b"number,measured\n1,12 mm\n2,12 \xb5m\n", &form).unwrap_err().to_string();
    assert_eq!(latin, "the CSV is not UTF-8: byte 29 is in row 3. Fix: save it as `CSV UTF-8`");
    let wide = ReadingTable::from_csv(b"\xff\xfen\0u\0", &form).unwrap_err().to_string();
    assert!(wide.starts_with("the CSV is not UTF-8 but UTF-16"), "{wide}");
}

#[test]
fn line_ends_of_any_machine_are_read() {
    for end in ["\n", "\r\n", "\r"] {
        let text = ["number,measured", "1,12 mm", "1,13 mm"].join(end);
        assert_eq!(sizes(&table(&text, ""), 1), ["12 mm", "13 mm"], "{end:?}");
    }
}

proptest! {
    // The quick reader against the reader of all notations.
    #[test]
    fn the_quick_reader_agrees(text in "[+-]?[0-9]{0,9}[.,]?[0-9]{0,10}", comma in any::<bool>()) {
        for units in Units::ALL {
            if let Some(size) = quick(&text, comma, units) {
                let point = if comma { text.replace(',', ".") } else { text.clone() };
                prop_assert_eq!(Size::parse_in(&point, Some(units)), Ok(size), "{}", text);
            }
        }
    }

    #[test]
    fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..200), text in "(number|measured|[0-9.,;\"\r\n\t ]|go|mm){0,60}") {
        let _ = ReadingTable::from_csv(&bytes, &CsvForm::default());
        let _ = ReadingTable::from_csv(text.as_bytes(), &CsvForm::default());
        let headed = format!("number,measured,piece\n{text}");
        let _ = ReadingTable::from_csv(headed.as_bytes(), &CsvForm { units: Some(Units::Inch), ..CsvForm::default() });
    }
}
