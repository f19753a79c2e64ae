use super::{Hours, Project};

impl Project {
    /// The same in steps of so many minutes, so that everything begins and ends on a round minute: what takes time takes as
    /// many whole steps, hours and limits are drawn in. Whatever fits so fits in truth too.
    #[must_use]
    pub fn in_steps(&self, step: i64) -> Self {
        let step = step.max(1);
        let (down, up) = (|t: i64| t.div_euclid(step) * step, |t: i64| -(-t).div_euclid(step) * step);
        let mut own = self.clone();
        (own.start, own.due) = (up(self.start), down(self.due));
        (own.reserve, own.carry) = (up(self.reserve), up(self.carry));
        for person in &mut own.people {
            let drawn = |h: &Hours| Hours { from: up(h.from), to: down(h.to), ..*h };
            person.hours = person.hours.iter().map(drawn).filter(|h| h.from < h.to).collect();
        }
        for job in &mut own.jobs {
            job.minutes = up(job.minutes);
            job.split = job.split.map(up);
            job.not_before = job.not_before.map(up);
            job.not_after = job.not_after.map(down);
        }
        for link in &mut own.links {
            link.least = up(link.least);
            // No less than the least, which would be no plan at all.
            link.most = link.most.map(|most| down(most).max(link.least));
        }
        for taken in &mut own.taken {
            (taken.from, taken.to) = (down(taken.from), up(taken.to));
        }
        own
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::judge::wrong;
    use super::super::{Answer, Hands, Job, Link, Need, Person, Taken, plan};
    use super::*;

    #[test]
    fn everything_begins_and_ends_on_round_minutes() {
        let work = |minutes| Job { minutes, hands: Hands::Work(1), ..Job::default() };
        let mut late = work(7);
        late.not_before = Some(63);
        let project = Project {
            start: 3,
            due: 299,
            reserve: 1,
            kitchens: 1,
            people: vec![Person { name: "Ida".to_owned(), hours: vec![Hours { kitchen: 0, from: 8, to: 222 }] }],
            jobs: vec![work(12), Job { minutes: 33, ..Job::default() }, late, work(50)],
            links: vec![
                Link { before: 0, after: 1, least: 0, most: None },
                Link { before: 1, after: 2, least: 4, most: None },
            ],
            ..Project::default()
        };
        let round = project.in_steps(5);
        assert_eq!((round.start, round.due, round.reserve), (5, 295, 5));
        assert_eq!(round.people[0].hours, [Hours { kitchen: 0, from: 10, to: 220 }]);
        assert_eq!(round.jobs.iter().map(|job| job.minutes).collect::<Vec<_>>(), [15, 35, 10, 50]);
        let Ok(Answer::Fits(found)) = plan(&round, 5) else { panic!("there is time enough") };
        let spans = found.schedule.placed.iter().flatten().flat_map(|placed| placed.spans.clone());
        assert!(spans.flat_map(|(from, to)| [from, to]).all(|t| t % 5 == 0), "{found:?}");
        // By counting it holds for the rounded project, and so for the true one, whose jobs are shorter.
        assert_eq!(wrong(&round, &found.schedule, true), Vec::<String>::new());
        let uneven = Project {
            carry: 7,
            jobs: vec![Job { minutes: 60, split: Some(13), ..work(60) }, work(5)],
            links: vec![Link { before: 0, after: 1, least: 2, most: Some(9) }],
            taken: vec![Taken { kitchen: 0, need: Need::of(0, 1), from: 8, to: 12 }],
            ..project.clone()
        };
        // Whatever fits in steps fits in truth: longer ways and breaks, less time to wait, more taken.
        let even = uneven.in_steps(5);
        assert_eq!((even.carry, even.jobs[0].split), (10, Some(15)));
        assert_eq!((even.links[0].least, even.links[0].most), (5, Some(5)));
        assert_eq!((even.taken[0].from, even.taken[0].to), (5, 15));
        assert_eq!(round.in_steps(5), round);
        assert_eq!(project.in_steps(1), project);
    }
}
