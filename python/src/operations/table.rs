//! Tables of a tolerance chart for notebooks.
use super::row::{PyChartRow, working};
use tenths::OperationChart;

pub(super) fn working_table(chart: &OperationChart) -> String {
    table(&["operation", "face", "from", "working dimension"], &working(chart), |row| {
        let operation = if row.kind == "stock" { "stock" } else { &row.name };
        vec![operation.into(), row.face.clone(), row.from.clone(), row.limits_text(chart.units)]
    })
}

pub(super) fn table(
    heads: &[&str],
    rows: &[PyChartRow],
    cells: impl Fn(&PyChartRow) -> Vec<String>,
) -> String {
    let line = |tag: &str, cells: &[String]| {
        let cells = cells.iter().map(|cell| format!("<{tag}>{}</{tag}>", escaped(cell)));
        format!("<tr>{}</tr>", cells.collect::<String>())
    };
    let heads: Vec<String> = heads.iter().map(|&head| head.into()).collect();
    let body: String = rows.iter().map(|row| line("td", &cells(row))).collect();
    format!("<table><thead>{}</thead><tbody>{body}</tbody></table>", line("th", &heads))
}

pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
