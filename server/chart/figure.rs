//! A finished chart: paths and texts for `templates/chart/figure.html`, what it says in words, and the table behind it.

/// A path with its class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Path {
    /// Classes of the style sheet.
    pub class: &'static str,
    /// The path's commands: numbers and letters, nothing that anyone typed.
    pub d: String,
}

/// A text with its class and place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text {
    /// Classes of the style sheet.
    pub class: &'static str,
    /// From the left.
    pub x: String,
    /// From the top, the line that the text stands on.
    pub y: String,
    /// `start`, `middle` or `end`.
    pub anchor: &'static str,
    /// What it says; escaped by the template.
    pub says: String,
}

/// A column of the table behind a chart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its head.
    pub says: String,
    /// It holds figures.
    pub is_number: bool,
}

impl Column {
    /// A column of words.
    #[must_use]
    pub fn words(says: impl Into<String>) -> Self {
        Self { says: says.into(), is_number: false }
    }

    /// A column of figures.
    #[must_use]
    pub fn numbers(says: impl Into<String>) -> Self {
        Self { says: says.into(), is_number: true }
    }
}

/// What a chart shows, as a table.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// The columns; the first names the row.
    pub columns: Vec<Column>,
    /// A cell for each column. The first may lead somewhere.
    pub rows: Vec<Row>,
}

/// A row of the table.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Row {
    /// Where its first cell leads.
    pub href: Option<String>,
    /// Its cells.
    pub cells: Vec<String>,
}

impl Row {
    /// Its cells with whether each is a figure, all but the first.
    pub fn rest<'a>(&'a self, columns: &'a [Column]) -> impl Iterator<Item = (&'a str, bool)> {
        self.cells.iter().zip(columns).skip(1).map(|(cell, column)| (cell.as_str(), column.is_number))
    }
}

/// A chart with its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Unique on its page.
    pub id: String,
    /// What is drawn, in few words and with its unit: the head of the caption and the title of the drawing.
    pub title: String,
    /// What the chart shows, in sentences: for who reads on and for who cannot see it.
    pub says: String,
    /// Sentences that follow from it.
    pub advice: Vec<String>,
    /// Whether time runs along it: its newest end is what is looked at first.
    pub is_over_time: bool,
    /// Width and height of the paper.
    pub size: (f64, f64),
    /// In the order in which they are drawn.
    pub paths: Vec<Path>,
    /// Above the paths.
    pub texts: Vec<Text>,
    /// The same as a table.
    pub table: Table,
}
