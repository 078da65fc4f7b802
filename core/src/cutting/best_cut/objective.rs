//! What a problem adds to the figures of its formula, and what is kept low.
use super::figure::Product;
use super::model::{Model, refused};
use super::problem::{BestCutError, CutLife, CutObjective, CutRates};
use crate::math::powf;

impl Model<'_> {
    /// Time, tool life, and the laws of the caller.
    pub fn derive(&mut self) -> Result<(), BestCutError> {
        let problem = self.problem;
        let told = |name: &str, value: f64| match value > 0.0 && value.is_finite() {
            true => Ok(value),
            false => refused(format!("{name} must be greater than 0, not {value}")),
        };
        let timed =
            [("path_length", problem.path_length, "feed_rate"), ("volume", problem.volume, "removal_rate")];
        let mut timed = timed.into_iter().filter_map(|(name, given, by)| Some((name, given?, by)));
        if let Some((name, given, by)) = timed.next() {
            if let Some((other, ..)) = timed.next() {
                return refused(format!("give {name} or {other}, not both"));
            }
            if self.place("time").is_some() {
                return refused(format!("{} has a time: leave out {name}", problem.formula.name));
            }
            let factor = told(name, given)?;
            let by = self.known(by)?;
            // Shop units of volume and removal rate go together on both sides, and so do those of length and feed rate.
            self.derived.push(("time".into(), Product { factor, parts: vec![(by, -1.0)] }));
        }
        if let Some(life) = problem.tool_life {
            let life = self.life(&life)?;
            self.derived.push(("tool_life".into(), life));
            if let Some(time) = self.place("time") {
                let life = self.known("tool_life")?;
                let parts = vec![(time, 1.0), (life, -1.0)];
                self.derived.push(("edge_use".into(), Product { factor: 1.0, parts }));
            }
        }
        for law in &problem.laws {
            if self.place(&law.name).is_some() || law.name.is_empty() {
                return refused(format!("a law must have a name of its own, not `{}`", law.name));
            }
            let factor = told(&format!("the factor of {}", law.name), law.factor)?;
            let mut parts = vec![];
            for (name, by) in &law.exponents {
                if !by.is_finite() {
                    return refused(format!(
                        "the exponent of {name} in {} must be finite, not {by}",
                        law.name
                    ));
                }
                parts.push((self.known(name)?, *by));
            }
            self.derived.push((law.name.clone(), Product { factor, parts }));
        }
        Ok(())
    }

    /// Taylor's law extended, as a power of speed, feed and depth.
    fn life(&self, life: &CutLife) -> Result<Product, BestCutError> {
        let CutLife { taylor_c, taylor_n, feed_exponent, depth_exponent, reference_feed, reference_depth } =
            *life;
        for (name, value) in
            [("taylor_c", taylor_c), ("reference_feed", reference_feed), ("reference_depth", reference_depth)]
        {
            if !(value > 0.0 && value.is_finite()) {
                return refused(format!("{name} must be greater than 0, not {value}"));
            }
        }
        if !(taylor_n > 0.0 && taylor_n <= 1.0) {
            return refused(format!("taylor_n must be greater than 0 and at most 1, not {taylor_n}"));
        }
        for (name, value) in [("feed_exponent", feed_exponent), ("depth_exponent", depth_exponent)] {
            if !(0.0..=10.0).contains(&value) {
                return refused(format!("{name} must be at least 0 and at most 10, not {value}"));
            }
        }
        let power = 1.0 / taylor_n;
        let mut product = Product { factor: powf(taylor_c, power), parts: vec![] };
        product.parts.push((self.known("surface_speed")?, -power));
        let mut by = |names: &[&str], exponent: f64, reference: f64, what: &str| {
            if exponent == 0.0 {
                return Ok(());
            }
            let Some(place) = names.iter().find_map(|name| self.place(name)) else {
                return refused(format!(
                    "{} has no {what} that tool life could depend on",
                    self.problem.formula.name
                ));
            };
            product.factor *= powf(reference, exponent * power);
            product.parts.push((place, -exponent * power));
            Ok(())
        };
        by(&["feed_per_revolution", "chip_load"], feed_exponent, reference_feed, "feed")?;
        // The depth of a drilled hole is not that of its cut.
        let is_hole = self.problem.formula.module.contains("drilling");
        let depths: &[&str] = if is_hole { &[] } else { &["axial_depth", "depth"] };
        by(depths, depth_exponent, reference_depth, "depth of cut")?;
        match product.factor > 0.0 && product.factor.is_finite() {
            true => Ok(product),
            false => refused("the tool life is too large or too small to represent".into()),
        }
    }

    pub fn set_objective(&mut self) -> Result<(), BestCutError> {
        let problem = self.problem;
        match &problem.objective {
            CutObjective::Most(name) => {
                self.sum = vec![Product::of(self.known(name)?).inverse()];
                self.inverted = true;
            }
            CutObjective::Own => {}
            CutObjective::Sum(parts) if parts.is_empty() => {
                return refused("the sum to minimise is empty".into());
            }
            CutObjective::Sum(parts) => {
                for (name, weight) in parts {
                    if !(*weight > 0.0 && weight.is_finite()) {
                        return refused(format!("the weight of {name} must be greater than 0, not {weight}"));
                    }
                    let part = match name.as_str() {
                        "cost" => CutObjective::Cost,
                        "time" => CutObjective::Time,
                        name => CutObjective::Least(name.into()),
                    };
                    self.add(&part, *weight)?;
                }
            }
            whole => self.add(whole, 1.0)?,
        }
        if self.sum.len() > 40 {
            return refused("the sum to minimise has too many parts: at most 20".into());
        }
        Ok(())
    }

    /// Adds a part of what is kept low.
    fn add(&mut self, part: &CutObjective, weight: f64) -> Result<(), BestCutError> {
        let rates = self.rates()?;
        let mut parts = vec![];
        match part {
            CutObjective::Cost => {
                let Some(CutRates { hourly_rate, edge_cost, tool_change_time, handling_time }) = rates else {
                    return refused("give rates to minimise the cost".into());
                };
                if hourly_rate <= 0.0 {
                    return refused(format!("hourly_rate must be greater than 0, not {hourly_rate}"));
                }
                if self.problem.tool_life.is_none() {
                    return refused(
                        "give tool_life to minimise the cost: without it the fastest cut would cost least"
                            .into(),
                    );
                }
                let minute = hourly_rate / 60.0;
                self.constant += weight * minute * handling_time;
                parts.push((self.known("time")?, minute));
                parts.push((self.known("edge_use")?, minute * tool_change_time + edge_cost));
            }
            CutObjective::Time => {
                self.constant += weight * rates.map_or(0.0, |rates| rates.handling_time);
                parts.push((self.known("time")?, 1.0));
                if let (Some(rates), Some(edges)) = (rates, self.place("edge_use")) {
                    parts.push((edges, rates.tool_change_time));
                }
            }
            CutObjective::EdgeUse => parts.push((self.known("edge_use")?, 1.0)),
            CutObjective::Least(name) => parts.push((self.known(name)?, 1.0)),
            CutObjective::Most(_) | CutObjective::Sum(_) | CutObjective::Own => {
                return refused("a sum has only parts that are kept low".into());
            }
        }
        let parts = parts.into_iter().filter(|(_, by)| *by > 0.0);
        self.sum.extend(parts.map(|(place, by)| Product::of(place).times(weight * by)));
        Ok(())
    }

    fn rates(&self) -> Result<Option<CutRates>, BestCutError> {
        let Some(rates) = self.problem.rates else { return Ok(None) };
        let numbers = [
            ("hourly_rate", rates.hourly_rate),
            ("edge_cost", rates.edge_cost),
            ("tool_change_time", rates.tool_change_time),
            ("handling_time", rates.handling_time),
        ];
        match numbers.into_iter().find(|(_, value)| !(*value >= 0.0 && value.is_finite())) {
            Some((name, value)) => refused(format!("{name} must be 0 or more, not {value}")),
            None => Ok(Some(rates)),
        }
    }
}
