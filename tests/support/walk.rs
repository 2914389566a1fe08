//! A technician who makes no mistake: answers every step of a job as the record and the definition
//! have it, and says what was keyed, one act a line.

use jiff::Timestamp;
use repin::{
    catalogue::LockState,
    face::PosePlace,
    form::read_acts,
    job::{Entry, ItemId, Job, JobSide, Lead, Occupant, State, Status, Task, Verdict},
    service::{JobAt, OpenJob},
};

use crate::support::cli::Shop;

/// Walks a job of the store to its end, or until nothing can be done, and enters the acts.
#[track_caller]
pub fn walk(shop: &Shop, id: &str) -> Vec<String> {
    walk_until(shop, id, |_| false)
}

/// The same, stopping before a step of this kind.
#[track_caller]
pub fn walk_until(shop: &Shop, id: &str, stop: impl Fn(&Task) -> bool) -> Vec<String> {
    let acts = flawless(&shop.path(&format!("{id}.job.ron")), stop);
    let run = shop.run_with(&["enter", id], &acts.join("\n"), &[]);
    assert_eq!(run.code, 0, "{run:?}");
    acts
}

fn flawless(path: &std::path::Path, stop: impl Fn(&Task) -> bool) -> Vec<String> {
    let mut job: Job = OpenJob::look(&JobAt::file(path)).unwrap().job().clone();
    let mut keyed = Vec::new();
    let mut key = |job: &mut Job, act: String| {
        let now = Timestamp::now();
        let parsed = read_acts("walk", &act).unwrap_or_else(|p| panic!("{act}: {}", p[0])).remove(0).act;
        let entry = Entry::new(now, "kt".to_owned(), parsed);
        assert_eq!(job.check(&entry), Verdict::Allowed, "{act}");
        job.apply(entry);
        keyed.push(act);
    };
    loop {
        let assessment = job.assess(Timestamp::now(), Some("kt"));
        let next = assessment.steps.iter().find(|s| s.status == Status::Next).map(|s| s.what.clone());
        let Some(step) = next.filter(|step| !stop(step)) else { return keyed };
        let answers = answers(job.state(), &step, &assessment);
        assert!(!answers.is_empty(), "nothing answers {step:?}");
        answers.into_iter().for_each(|act| key(&mut job, act));
    }
}

fn colour_of(lead: &Lead) -> String {
    lead.first_wire().unwrap().colour.known().map_or("?".to_owned(), ToString::to_string)
}

fn answers(state: &State, step: &Task, assessment: &repin::job::Assessment) -> Vec<String> {
    let one = |act: String| vec![act];
    match step {
        Task::Gate { gate } => one(match gate {
            repin::job::GateKind::Battery => r#"Gate(gate:Battery,answer:Released,document:"D",name:"K. Tanner",measured:(volts:"0 V",between:"1 and chassis",tester_proved:true))"#.to_owned(),
            repin::job::GateKind::StoredEnergy => r#"Gate(gate:StoredEnergy,answer:Released,document:"D",name:"K. Tanner",measured:(state:"none of them on this machine"))"#.to_owned(),
            gate => format!(r#"Gate(gate:{gate:?},answer:Absent,document:"D",name:"K. Tanner")"#),
        }),
        Task::View { housing } => {
            let up = state.housings.housing(housing).unwrap().housing().features.first().map_or("top", |f| f.name.as_str());
            one(format!(r#"View(housing:"{housing}",face:Wire,up:"{up}")"#))
        }
        Task::Record { at: None } => one("RecordFinished(side:Found)".to_owned()),
        Task::Record { at: Some(at) } => panic!("{at} is not on record"),
        Task::Anchor { housing, place } => {
            let held = state.housings.housing(housing).unwrap();
            if *place == PosePlace::Key {
                let up = held.housing().feature_on(held.pose().up).unwrap();
                return one(format!(r#"Anchor(housing:"{housing}",place:"key",mark:"{up}")"#));
            }
            let seen = held.seen();
            let label = seen.label_at(*place).unwrap();
            let colour = match held.side {
                JobSide::New => String::new(),
                JobSide::Old => {
                    let lead = state.items.lead(&ItemId::At(held.address(label))).unwrap();
                    format!(r#"colour:"{}","#, colour_of(lead))
                }
            };
            one(format!(r#"Anchor(housing:"{housing}",place:"{place}",{colour}mark:"{label}")"#))
        }
        Task::Compare { question } => one(format!("Compared(question:{question:?},answer:Fits,mating_half:true)")),
        Task::Decide { at } => one(format!(r#"Decided(at:"{at}",wins:Should,reason:"by the diagram")"#)),
        Task::Photo => one(r#"Photo(number:"1",shows:"both faces")"#.to_owned()),
        Task::Cause => one(r#"Cause(text:"crushed")"#.to_owned()),
        Task::ConfirmMap => {
            let source = state.map_proposals().first().unwrap().source;
            one(format!("MapConfirmed(source:{source:?})"))
        }
        Task::LookAt { cavities } => {
            let labels: Vec<String> = cavities.iter().map(|at| format!("{:?}", at.label.as_str())).collect();
            one(format!(r#"LookedOver(housing:"{}",face:Wire,cavities:[{}],sound:true)"#, cavities[0].housing, labels.join(",")))
        }
        Task::Tag { lead } => one(format!(r#"Tagged(lead:"{lead}",tag:"T{}")"#, lead.to_string().replace(':', "-"))),
        Task::AssuranceOff { housing } => one(format!(r#"Assurance(housing:"{housing}",on:false)"#)),
        Task::AssuranceOn { housing } => one(format!(r#"Assurance(housing:"{housing}",on:true)"#)),
        Task::SmallPartOff { housing, part } => one(format!(r#"SmallPart(housing:"{housing}",part:"{part}",on:false)"#)),
        Task::SmallPartOn { housing, part } => one(format!(r#"SmallPart(housing:"{housing}",part:"{part}",on:true)"#)),
        Task::Unlock { housing, to } => one(format!(r#"Lock(housing:"{housing}",to:{to:?},finger:true)"#)),
        Task::Lock { housing } => one(format!(r#"Lock(housing:"{housing}",to:{:?},finger:true)"#, LockState::FullSet)),
        Task::TakePlug { at } => vec![format!(r#"TakePlug(from:"{at}")"#), "ReturnPlug".to_owned()],
        Task::MovePlug { from, to } => {
            let to = to.as_ref().unwrap();
            vec![format!(r#"TakePlug(from:"{from}")"#), format!(r#"FitPlug(into:"{to}",source:Hand)"#)]
        }
        Task::FitPlug { at } => one(format!(r#"FitPlug(into:"{at}",source:Stock)"#)),
        Task::MoveOther { from, to } => one(format!(r#"MoveOther(from:"{from}",to:"{}")"#, to.as_ref().unwrap())),
        Task::MoveWire { lead, to } => {
            let (lead, to) = (state.items.lead(lead).unwrap(), to.as_ref().unwrap());
            let ItemId::At(from) = &lead.id else { panic!("{lead:?}") };
            let seal = match state.housings.housing(&from.housing).unwrap().housing().sealing {
                repin::catalogue::Sealing::Individual => "On",
                _ => "None",
            };
            let out = format!(r#"Extract(from:"{from}",colour:"{}",freely:true,seal:{seal})"#, colour_of(lead));
            // What its record says is wrong with it is mended first.
            let is_hurt = lead.suspect || lead.damages().next().is_some();
            let mended = [
                format!(r#"Planned(lead:"{from}",how:Other,reason:"as recorded")"#),
                format!(r#"Repair(lead:"{from}",how:Other,done:"mended by the manual")"#),
            ];
            let mended = if is_hurt { mended.to_vec() } else { Vec::new() };
            let mut acts = vec![out];
            acts.extend(mended);
            acts.extend([
                "Inspect(verdict:Good)".to_owned(),
                format!(r#"Insert(into:"{to}",click:true)"#),
                format!(r#"Tug(at:"{to}",held:true)"#),
            ]);
            acts
        }
        Task::Repair { .. } => panic!("a repair is planned"),
        Task::Look { housing, face } => one(format!(r#"LookedOver(housing:"{housing}",face:{face:?})"#)),
        Task::LookMatingHalf => one("MatingHalf(verdict:Good)".to_owned()),
        Task::CountRow { housing, row } => {
            let (wires, plugs, open) = state.count_row(housing, *row).unwrap();
            one(format!(r#"RowCounted(housing:"{housing}",row:{row},wires:{wires},plugs:{plugs},open:{open})"#))
        }
        Task::ReRead { at } => one(match state.items.occupant(at) {
            Some(Occupant::Lead(lead)) => format!(r#"ReRead(at:"{at}",colour:"{}")"#, colour_of(lead)),
            _ => format!(r#"ReRead(at:"{at}",colour:"plug")"#),
        }),
        Task::Mate => one("Mate(level:true)".to_owned()),
        Task::Test { test } => one(format!(r#"Measure(test:{test:?},value:"good")"#)),
        Task::Sign => {
            assert_eq!(assessment.account.open_flags().map(|f| f.code().to_string()).collect::<Vec<_>>(), ["unsigned"]);
            let serial = &state.world.ticket.serial;
            let end = serial.get(serial.len().saturating_sub(2)..).unwrap();
            one(format!(r#"Sign(name:"K. Tanner",serial_end:"{end}")"#))
        }
    }
}
