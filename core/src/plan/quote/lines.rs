//! The lines of a quote for one quantity.
use super::super::rates::{PriceGoverns, StartsRounded, TieRounding};
use super::job::{Bars, Counted, Job, Step, Stock};
use super::result::{Quote, QuoteLine, QuoteLineKind};
use crate::cost::{StartRule, starts};
use crate::decimals;
use crate::money::{Amount, Exact, Rounding};

/// Lines as they are gathered, each rounded once.
struct Lines {
    lines: Vec<QuoteLine>,
    decimals: u8,
    rounding: Rounding,
    sum: i64,
    minutes: Exact,
}

/// A line without its amount.
struct Head<'h> {
    kind: QuoteLineKind,
    name: String,
    step: Option<&'h Step>,
    basis: String,
}

impl Lines {
    /// Adds a line; nothing where it is more than an amount holds.
    fn add(&mut self, head: Head<'_>, exact: Exact) -> Option<i64> {
        let amount = Amount::of(exact, self.decimals, self.rounding).ok()?;
        self.sum = self.sum.checked_add(amount.minor())?;
        let Head { kind, name, step, basis } = head;
        self.lines.push(QuoteLine { kind, name, operation: step.map(|step| step.number), amount, basis });
        Some(amount.minor())
    }

    /// Adds the cost of minutes on a machine.
    fn work(&mut self, head: Head<'_>, minutes: Exact, rate: Exact) -> Option<i64> {
        self.minutes = self.minutes + minutes;
        let basis = [&*head.basis, " at ", &*figure(rate), " an hour"].concat();
        self.add(Head { basis, ..head }, minutes * rate / Exact::whole(60))
    }

    fn amount(&self, minor: i64) -> Option<Amount> {
        Amount::new(minor, self.decimals).ok()
    }
}

/// A figure of a basis: to four decimals, without zeros at the end.
fn figure(number: Exact) -> String {
    decimals::decimal(number.to_f64(), 4)
}

fn several(count: u64, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}

fn pieces(count: u64) -> Exact {
    Exact::whole(count.into())
}

impl Job<'_> {
    /// The quote for a quantity; nothing where a sum is too large to be kept exactly.
    pub(super) fn quote(&self, quantity: u64) -> Option<Quote> {
        let rates = self.rates;
        let scrap: Vec<Exact> = self.steps.iter().map(|step| step.scrap).collect();
        let rule = match rates.starts {
            StartsRounded::EachOperation => StartRule::EachOperation,
            StartsRounded::Rolled => StartRule::Rolled,
        };
        let starts = starts(quantity, &scrap, rule)?;
        let start_quantity = starts.first().copied().unwrap_or(quantity);
        let rounding = match rates.rounding {
            TieRounding::HalfEven => Rounding::HalfEven,
            TieRounding::HalfUp => Rounding::HalfUp,
        };
        let decimals = u8::try_from(rates.decimals).ok()?;
        let mut lines = Lines { lines: vec![], decimals, rounding, sum: 0, minutes: Exact::ZERO };
        self.material(&mut lines, quantity, start_quantity)?;
        for (step, &started) in self.steps.iter().zip(&starts) {
            self.step(&mut lines, step, started)?;
        }
        self.outside(&mut lines, quantity, &starts)?;
        self.handling(&mut lines)?;
        self.price(lines, quantity, start_quantity)
    }

    fn material(&self, lines: &mut Lines, quantity: u64, started: u64) -> Option<()> {
        let head = |kind, name: &str, basis| Head { kind, name: name.into(), step: None, basis };
        let bars = match &self.stock {
            Stock::Blanks { price } => {
                let basis = format!("{} at {}", several(started, "blank"), figure(*price));
                lines.add(head(QuoteLineKind::Material, "material", basis), pieces(started) * *price)?;
                return Some(());
            }
            Stock::Bars(bars) => bars,
        };
        let [mass_unit, length_unit] = [["lb", "ft"], ["kg", "m"]][self.units as usize];
        let count = started.div_ceil(bars.per_bar);
        let bought = pieces(count) * bars.length;
        let basis = format!(
            "{} of {} {length_unit}, {} pieces from a bar, {}",
            several(count, "bar"),
            figure(bars.length),
            bars.per_bar,
            bars.by
        );
        lines.add(head(QuoteLineKind::Material, "material", basis), bought * bars.price)?;
        let kept = kept(bars, started, count);
        if bars.kept_from.is_some() {
            let basis = match kept > Exact::ZERO {
                true => format!("{} {length_unit} of the last bar is kept", figure(kept)),
                false => "nothing of the last bar is long enough to keep".into(),
            };
            lines.add(head(QuoteLineKind::Remnant, "remnant kept", basis), -(kept * bars.price))?;
        }
        if let Some(scrap) = &bars.scrap {
            let used = (bought - kept) * scrap.mass_per_length;
            let mass = (used - pieces(quantity) * scrap.finished_mass).max(Exact::ZERO);
            let basis = format!("{} {mass_unit} at {} a {mass_unit}", figure(mass), figure(scrap.price));
            lines.add(head(QuoteLineKind::ScrapValue, "scrap sold", basis), -(mass * scrap.price))?;
        }
        Some(())
    }

    fn step(&self, lines: &mut Lines, step: &Step, started: u64) -> Option<()> {
        if step.outside.is_some() {
            return Some(());
        }
        let Step { number, title, machine, rate, setup, minutes, counted, wears, .. } = step;
        let head = |kind, name, basis| Head { kind, name, step: Some(step), basis };
        if *setup > Exact::ZERO {
            let basis = format!("{} min on {machine}", figure(*setup));
            lines.work(
                head(QuoteLineKind::Setup, format!("set-up {number}, {title}"), basis),
                *setup,
                *rate,
            )?;
        }
        let (kind, count, what) = match *counted {
            Counted::Each => (QuoteLineKind::Run, started, "piece"),
            Counted::Every(every) => (QuoteLineKind::Inspection, 1 + (started - 1) / every.max(1), "piece"),
            Counted::Batches(size) => (QuoteLineKind::Run, started.div_ceil(size.max(1)), "batche"),
        };
        let several = if what == "batche" && count == 1 { "1 batch".into() } else { several(count, what) };
        let learning = step.learning.filter(|_| !matches!(counted, Counted::Batches(_)));
        let (time, basis) = match learning {
            Some(learning) => {
                let time = learning.lot(*minutes, count)?;
                let mean = figure(time / pieces(count));
                (time, format!("{several} of {mean} min on average, {}, on {machine}", learning.words()))
            }
            None => (pieces(count) * *minutes, format!("{several} of {} min on {machine}", figure(*minutes))),
        };
        let name = format!("run {number}, {title}");
        // What is bought and takes no time of the shop has the line of its cost alone.
        if step.cost.is_none() || *minutes > Exact::ZERO {
            lines.work(head(kind, name, basis), time, *rate)?;
        }
        if let Some(cost) = step.cost {
            let basis = format!("{started} at {}", figure(cost));
            lines.add(
                head(QuoteLineKind::Outside, format!("cost {number}, {title}"), basis),
                pieces(started) * cost,
            )?;
        }
        for wear in wears {
            let lives = pieces(started) * wear.lives;
            let basis = format!("{} lives of an edge at {}", figure(lives), figure(wear.price));
            let name = format!("tool {number}, {}", wear.name);
            lines.add(head(QuoteLineKind::Tool, name, basis), lives * wear.price)?;
            if wear.change > Exact::ZERO {
                let basis = format!("{} changes of {} min", figure(lives), figure(wear.change));
                let name = format!("tool change {number}, {}", wear.name);
                lines.work(head(QuoteLineKind::ToolChange, name, basis), lives * wear.change, *rate)?;
            }
        }
        Some(())
    }

    fn outside(&self, lines: &mut Lines, quantity: u64, starts: &[u64]) -> Option<()> {
        for (index, outside) in self.rates.outside.iter().enumerate() {
            let mut of_steps = self.steps.iter().zip(starts).filter(|(step, _)| step.outside == Some(index));
            let (step, count) = match of_steps.next() {
                Some((step, &started)) => (Some(step), started),
                None if outside.kinds.is_empty() => (None, quantity),
                None => continue,
            };
            let each = match (outside.price, outside.price_per_mass) {
                (Some(price), _) => price.0,
                (None, price) => price?.0 * self.finished_mass?,
            };
            let charge = pieces(count) * each;
            let basis = match charge < outside.minimum.0 {
                true => format!("the minimum charge, above {} at {}", several(count, "piece"), figure(each)),
                false => format!("{} at {}", several(count, "piece"), figure(each)),
            };
            let head = |kind, name, basis| Head { kind, name, step, basis };
            let name = format!("outside: {}", outside.name);
            lines.add(head(QuoteLineKind::Outside, name, basis), charge.max(outside.minimum.0))?;
            if outside.freight.0 > Exact::ZERO {
                let name = format!("freight: {}", outside.name);
                lines.add(head(QuoteLineKind::Freight, name, "a lot".into()), outside.freight.0)?;
            }
        }
        Some(())
    }

    fn handling(&self, lines: &mut Lines) -> Option<()> {
        let head = |kind, name: &str, basis| Head { kind, name: name.into(), step: None, basis };
        if let Some(moves) = self.rates.moves.as_ref().filter(|_| self.moves > 0) {
            let time = super::job::minutes(moves.time);
            let basis = format!("{} of {} min", several(self.moves, "move"), figure(time));
            lines.work(
                head(QuoteLineKind::Moves, "moves", basis),
                pieces(self.moves) * time,
                moves.rate.0,
            )?;
        }
        let handling = self.rates.order_handling.0;
        if handling > Exact::ZERO {
            lines.add(head(QuoteLineKind::OrderHandling, "order handling", "a lot".into()), handling)?;
        }
        Some(())
    }

    /// From the cost of making to the price.
    fn price(&self, mut lines: Lines, quantity: u64, start_quantity: u64) -> Option<Quote> {
        let rates = self.rates;
        let head = |kind, name: &str, basis| Head { kind, name: name.into(), step: None, basis };
        let percent = |share: Exact| figure(share * Exact::whole(100));
        let manufacturing_cost = lines.amount(lines.sum)?;
        if rates.admin.0 > Exact::ZERO {
            let basis = format!("{} percent of the manufacturing cost", percent(rates.admin.0));
            let amount = manufacturing_cost.exact() * rates.admin.0;
            lines.add(head(QuoteLineKind::Admin, "administration", basis), amount)?;
        }
        let total_cost = lines.amount(lines.sum)?;
        if let Some(margin) = rates.margin {
            let basis = format!("{} percent of the price", percent(margin.0));
            let amount = total_cost.exact() * margin.0 / (Exact::ONE - margin.0);
            lines.add(head(QuoteLineKind::Margin, "margin", basis), amount)?;
        } else if let Some(markup) = rates.markup {
            let basis = format!("{} percent of the cost", percent(markup.0));
            lines.add(head(QuoteLineKind::Markup, "markup", basis), total_cost.exact() * markup.0)?;
        }
        let least = Amount::of(rates.minimum_charge.0, lines.decimals, lines.rounding).ok()?.minor();
        if lines.sum < least {
            let missing = lines.amount(least - lines.sum)?.exact();
            let basis = format!("a lot is at least {}", lines.amount(least)?);
            lines.add(head(QuoteLineKind::MinimumCharge, "minimum charge", basis), missing)?;
        }
        let lot = lines.amount(lines.sum)?;
        let each = Amount::of(lot.exact() / pieces(quantity), lines.decimals, lines.rounding).ok()?.minor();
        let count = i64::try_from(quantity).ok()?;
        let governs = rates.price_governs == PriceGoverns::Each;
        // A price each that is rounded down must not undercut the least that a lot is sold for.
        let each = each + i64::from(governs && each.checked_mul(count)? < least);
        let residue = each.checked_mul(count)?.checked_sub(lines.sum)?;
        if governs {
            let basis = format!("{quantity} × {} for {lot}", lines.amount(each)?);
            lines.add(head(QuoteLineKind::Rounding, "rounding", basis), lines.amount(residue)?.exact())?;
        }
        Some(Quote {
            quantity,
            start_quantity,
            hours: (lines.minutes / Exact::whole(60)).to_f64(),
            manufacturing_cost,
            total_cost,
            total: lines.amount(lines.sum)?,
            price_each: lines.amount(each)?,
            residue: lines.amount(if governs { 0 } else { residue })?,
            cheaper_at: None,
            currency: rates.currency.clone(),
            lines: lines.lines,
        })
    }
}

/// What is kept of the last bar; nothing where it is too short.
fn kept(bars: &Bars, started: u64, count: u64) -> Exact {
    let cut = started - (count - 1) * bars.per_bar;
    let left = bars.length - bars.trim - pieces(cut) * bars.pitch;
    bars.kept_from.filter(|from| left >= *from).map_or(Exact::ZERO, |_| left)
}
