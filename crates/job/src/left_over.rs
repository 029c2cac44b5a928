//! Stock that other jobs left over: a file with nothing but entries under `stock`.

use crate::fault::{Faults, Place};
use crate::reader::begin_file;
use crate::shop::Shop;
use crate::stock::{STOCK, StockSpec, check_stock};
use crate::table::{Field, Kind, Of, required, surrounding};

/// Reads such a file, which may speak of the stock of a shop.
pub(crate) fn read_left_over(
    file: &str,
    text: &str,
    shop: &Shop,
) -> Result<Vec<(String, StockSpec)>, Faults> {
    let mut read = begin_file(file, text, LEFT_OVER, |record, faults| {
        for (_, stock) in record.named("stock") {
            check_stock(stock, faults);
        }
    });
    read.names.check(&mut read.faults, Some(&shop.names()));
    Faults::check(read.faults)?;
    let record = read.record.ok_or_else(|| Faults(Vec::new()))?;
    let stocks = record.named("stock");
    Ok(stocks
        .map(|(name, record)| (name.to_owned(), StockSpec::new(record)))
        .collect())
}

impl Shop {
    /// Takes up what the file named at this place has.
    pub(crate) fn also(&mut self, stocks: Vec<(String, StockSpec)>, place: &Place) -> Result<(), Faults> {
        for (name, stock) in stocks {
            if self.stock.contains_key(&name) {
                let what =
                    format!("there is a stock `{name}` in it, and one in the shop or in another such file");
                let help = "call one of them otherwise, or leave the file out if it is used up".to_owned();
                return Err(Faults(vec![place.fault(what, Some(help))]));
            }
            self.stock.insert(name, stock);
        }
        Ok(())
    }
}

const LEFT_OVER: &[Field] = &[
    surrounding("units", "what a bare number means: mm if left out"),
    required(
        "stock",
        Kind::Named(Of::Stock, &Kind::Group(STOCK)),
        "what is left over, as in a shop file",
    ),
];
