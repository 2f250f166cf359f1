//! Rows for a spreadsheet.

use serde::Serialize;

/// Rows as CSV (RFC 4180, with plain line ends), headings first; without any rows the headings alone, which are those of
/// the default row.
pub fn csv_text<T: Serialize + Default>(rows: &[T]) -> Result<String, std::io::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    if rows.is_empty() {
        let of_default = T::default();
        writer.serialize(&of_default)?;
    }
    for row in rows {
        writer.serialize(row)?;
    }
    let bytes = (writer.into_inner()).map_err(|error| std::io::Error::other(error.to_string()))?;
    let text = String::from_utf8(bytes).map_err(std::io::Error::other)?;
    if rows.is_empty() {
        let headings = text.lines().next().unwrap_or_default();
        return Ok(format!("{headings}\n"));
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Default, Serialize)]
    struct Row {
        file: String,
        count: u32,
        roll_deg: Option<f64>,
    }

    #[test]
    fn rows_are_quoted_where_they_must_be_and_headings_stand_alone() {
        let row = Row {
            file: "a, \"b\".json".to_owned(),
            count: 3,
            roll_deg: None,
        };
        let text = csv_text(&[row]).unwrap();
        assert_eq!(text, "file,count,roll_deg\n\"a, \"\"b\"\".json\",3,\n");
        assert_eq!(csv_text::<Row>(&[]).unwrap(), "file,count,roll_deg\n");
    }
}
