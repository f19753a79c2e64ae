/// When and by whom one job is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Placed {
    /// From when to when it is worked on: one span, or several where it is laid down and taken up again. In order.
    pub spans: Vec<(i64, i64)>,
    /// Who does it, as indices; empty for what is watched or goes on alone.
    pub people: Vec<usize>,
    /// Where.
    pub kitchen: usize,
}

impl Placed {
    /// When it begins.
    pub fn start(&self) -> i64 {
        self.spans.first().map_or(0, |span| span.0)
    }

    /// When it is done.
    pub fn end(&self) -> i64 {
        self.spans.last().map_or(0, |span| span.1)
    }

    pub(super) fn turned(&self) -> Self {
        let spans = self.spans.iter().rev().map(|&(from, to)| (-to, -from)).collect();
        Self { spans, people: self.people.clone(), kitchen: self.kitchen }
    }
}

/// When everything is done.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Schedule {
    /// Per job of the project; none where the hours that there are do not suffice.
    pub placed: Vec<Option<Placed>>,
}

impl Schedule {
    /// When the first job begins.
    pub fn start(&self) -> Option<i64> {
        self.placed.iter().flatten().map(Placed::start).min()
    }

    /// When the last job is done.
    pub fn end(&self) -> Option<i64> {
        self.placed.iter().flatten().map(Placed::end).max()
    }

    /// Whether every job has its time.
    pub fn is_whole(&self) -> bool {
        self.placed.iter().all(Option::is_some)
    }

    pub(super) fn turned(&self) -> Self {
        Self { placed: self.placed.iter().map(|p| p.as_ref().map(Placed::turned)).collect() }
    }
}
