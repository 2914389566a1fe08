//! A technician who makes no mistake: answers every step of a job as the record and the definition
//! have it, and says what was keyed, one act a line.

use jiff::Timestamp;
use repin::{
    catalogue::LockState,
    face::PosePlace,
    store::{OpenJob, read_acts},
    swap::{Do, Entry, ItemId, Job, JobSide, Lead, Occupant, State, Status, Verdict},
};

use crate::support::cli::Shop;

/// Walks a job of the store to its end, or until nothing can be done, and enters the acts.
#[track_caller]
pub fn walk(shop: &Shop, id: &str) -> Vec<String> {
    walk_until(shop, id, |_| false)
}

/// The same, stopping before a step of this kind.
#[track_caller]
pub fn walk_until(shop: &Shop, id: &str, stop: impl Fn(&Do) -> bool) -> Vec<String> {
    let acts = flawless(&shop.path(&format!("{id}.job.ron")), stop);
    let run = shop.run_with(&["enter", id], &acts.join("\n"), &[]);
    assert_eq!(run.code, 0, "{run:?}");
    acts
}

fn flawless(path: &std::path::Path, stop: impl Fn(&Do) -> bool) -> Vec<String> {
    let mut job: Job = OpenJob::look(path).unwrap().job().clone();
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
        let survey = job.survey(Timestamp::now(), Some("kt"));
        let next = survey.steps.iter().find(|s| s.status == Status::Next).map(|s| s.what.clone());
        let Some(step) = next.filter(|step| !stop(step)) else { return keyed };
        let answers = answers(job.state(), &step, &survey);
        assert!(!answers.is_empty(), "nothing answers {step:?}");
        answers.into_iter().for_each(|act| key(&mut job, act));
    }
}

fn colour_of(lead: &Lead) -> String {
    lead.first_wire().unwrap().colour.known().map_or("?".to_owned(), ToString::to_string)
}

fn answers(state: &State, step: &Do, survey: &repin::swap::Survey) -> Vec<String> {
    let one = |act: String| vec![act];
    match step {
        Do::Gate { gate } => one(match gate {
            repin::swap::GateKind::Battery => r#"Gate(gate:Battery,answer:Released,document:"D",name:"K. Tanner",measured:(volts:"0 V",between:"1 and chassis",tester_proved:true))"#.to_owned(),
            repin::swap::GateKind::StoredEnergy => r#"Gate(gate:StoredEnergy,answer:Released,document:"D",name:"K. Tanner",measured:(state:"none of them on this machine"))"#.to_owned(),
            gate => format!(r#"Gate(gate:{gate:?},answer:Absent,document:"D",name:"K. Tanner")"#),
        }),
        Do::View { housing } => {
            let up = state.housing(housing).unwrap().housing().features.first().map_or("top", |f| f.name.as_str());
            one(format!(r#"View(housing:"{housing}",face:Wire,up:"{up}")"#))
        }
        Do::Record { at: None } => one("RecordFinished(side:Found)".to_owned()),
        Do::Record { at: Some(at) } => panic!("{at} is not on record"),
        Do::Anchor { housing, place } => {
            let held = state.housing(housing).unwrap();
            if *place == PosePlace::Key {
                let up = held.housing().feature_on(held.pose().up).unwrap();
                return one(format!(r#"Anchor(housing:"{housing}",place:"key",mark:"{up}")"#));
            }
            let seen = held.seen();
            let label = seen.label_at(*place).unwrap();
            let colour = match held.side {
                JobSide::New => String::new(),
                JobSide::Old => {
                    let lead = state.lead(&ItemId::At(held.address(label))).unwrap();
                    format!(r#"colour:"{}","#, colour_of(lead))
                }
            };
            one(format!(r#"Anchor(housing:"{housing}",place:"{place}",{colour}mark:"{label}")"#))
        }
        Do::Compare { question } => one(format!("Compared(question:{question:?},answer:Fits,mating_half:true)")),
        Do::Decide { at } => one(format!(r#"Decided(at:"{at}",wins:Should,reason:"by the diagram")"#)),
        Do::Photo => one(r#"Photo(number:"1",shows:"both faces")"#.to_owned()),
        Do::Cause => one(r#"Cause(text:"crushed")"#.to_owned()),
        Do::ConfirmMap => {
            let source = state.map_proposals().first().unwrap().source;
            one(format!("MapConfirmed(source:{source:?})"))
        }
        Do::LookAt { cavities } => {
            let labels: Vec<String> = cavities.iter().map(|at| format!("{:?}", at.label.as_str())).collect();
            one(format!(r#"LookedOver(housing:"{}",face:Wire,cavities:[{}],sound:true)"#, cavities[0].housing, labels.join(",")))
        }
        Do::Tag { lead } => one(format!(r#"Tagged(lead:"{lead}",tag:"T{}")"#, lead.to_string().replace(':', "-"))),
        Do::AssuranceOff { housing } => one(format!(r#"Assurance(housing:"{housing}",on:false)"#)),
        Do::AssuranceOn { housing } => one(format!(r#"Assurance(housing:"{housing}",on:true)"#)),
        Do::SmallPartOff { housing, part } => one(format!(r#"SmallPart(housing:"{housing}",part:"{part}",on:false)"#)),
        Do::SmallPartOn { housing, part } => one(format!(r#"SmallPart(housing:"{housing}",part:"{part}",on:true)"#)),
        Do::Unlock { housing, to } => one(format!(r#"Lock(housing:"{housing}",to:{to:?},finger:true)"#)),
        Do::Lock { housing } => one(format!(r#"Lock(housing:"{housing}",to:{:?},finger:true)"#, LockState::FullSet)),
        Do::TakePlug { at } => vec![format!(r#"TakePlug(from:"{at}")"#), "ReturnPlug".to_owned()],
        Do::MovePlug { from, to } => {
            let to = to.as_ref().unwrap();
            vec![format!(r#"TakePlug(from:"{from}")"#), format!(r#"FitPlug(into:"{to}",source:Hand)"#)]
        }
        Do::FitPlug { at } => one(format!(r#"FitPlug(into:"{at}",source:Stock)"#)),
        Do::MoveOther { from, to } => one(format!(r#"MoveOther(from:"{from}",to:"{}")"#, to.as_ref().unwrap())),
        Do::MoveWire { lead, to } => {
            let (lead, to) = (state.lead(lead).unwrap(), to.as_ref().unwrap());
            let ItemId::At(from) = &lead.id else { panic!("{lead:?}") };
            let seal = match state.housing(&from.housing).unwrap().housing().sealing {
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
        Do::Repair { .. } => panic!("a repair is planned"),
        Do::Look { housing, face } => one(format!(r#"LookedOver(housing:"{housing}",face:{face:?})"#)),
        Do::LookMatingHalf => one("MatingHalf(verdict:Good)".to_owned()),
        Do::CountRow { housing, row } => {
            let (wires, plugs, open) = state.count_row(housing, *row).unwrap();
            one(format!(r#"RowCounted(housing:"{housing}",row:{row},wires:{wires},plugs:{plugs},open:{open})"#))
        }
        Do::ReRead { at } => one(match state.occupant(at) {
            Some(Occupant::Lead(lead)) => format!(r#"ReRead(at:"{at}",colour:"{}")"#, colour_of(lead)),
            _ => format!(r#"ReRead(at:"{at}",colour:"plug")"#),
        }),
        Do::Mate => one("Mate(level:true)".to_owned()),
        Do::Test { test } => one(format!(r#"Measure(test:{test:?},value:"good")"#)),
        Do::Sign => {
            assert_eq!(survey.account.open_flags().map(|f| f.code.to_string()).collect::<Vec<_>>(), ["unsigned"]);
            let serial = &state.ticket.serial;
            let end = serial.get(serial.len().saturating_sub(2)..).unwrap();
            one(format!(r#"Sign(name:"K. Tanner",serial_end:"{end}")"#))
        }
    }
}
