//! Every key of the program, once. The handler, the footer and the help page read these tables.
//!
//! While a value is typed, printable keys go into the field; elsewhere one key is one answer.
//! Nothing a plain terminal cannot send, and no chords but the one that everybody tries to get out.

use crossterm::event::{KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

use crate::procedure::Choice;

/// A key that works the same on every page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SharedKey {
    /// Ends what is typed; in the menu, takes what is marked.
    Enter,
    /// Goes one answer back; on another page, back to the bench page.
    Back,
    /// Erases the last character typed.
    Erase,
    /// Goes to the next page.
    NextPage,
    /// Goes to the page before.
    LastPage,
    /// Up the list or the menu.
    Up,
    /// Down the list or the menu.
    Down,
    /// Shows the next old housing, on the bench page.
    NextOld,
    /// Shows the next new housing, on the bench page.
    NextNew,
    /// Opens the menu of other things one can do.
    Other,
    /// Opens or closes the help.
    Help,
    /// Asks for a label, wire, circuit or colour to go to.
    Jump,
    /// Draws the faces from the other side; the record stays.
    Flip,
    /// Draws the faces upside down; the record stays.
    Turn,
    /// Leaves; all that was entered is kept.
    Leave,
    /// Empties what is typed; when nothing is, leaves.
    GetOut,
}

/// A common key: what it is, how it is named, what it does, whether it also works while a value
/// is typed.
pub struct CommonKey {
    /// What it does, as a value.
    pub does: SharedKey,
    /// What the keyboard sends.
    pub code: KeyCode,
    /// With which key held down.
    pub with: KeyModifiers,
    /// How it is named.
    pub name: &'static str,
    /// What it does, in words.
    pub text: &'static str,
    /// Whether it works while a value is typed.
    pub in_field: bool,
}

const fn key(
    does: SharedKey,
    code: KeyCode,
    name: &'static str,
    text: &'static str,
    in_field: bool,
) -> CommonKey {
    CommonKey { does, code, with: KeyModifiers::NONE, name, text, in_field }
}

/// The common keys.
pub const COMMON: [CommonKey; 17] = [
    key(SharedKey::Enter, KeyCode::Enter, "Enter", "ends what you type", true),
    key(SharedKey::Back, KeyCode::Esc, "Esc", "one answer back", true),
    key(SharedKey::Erase, KeyCode::Backspace, "Backspace", "erases a character", true),
    key(SharedKey::NextPage, KeyCode::Tab, "Tab", "next page", true),
    key(SharedKey::LastPage, KeyCode::BackTab, "Shift-Tab", "page before", true),
    key(SharedKey::Up, KeyCode::Up, "Up", "up the list", true),
    key(SharedKey::Down, KeyCode::Down, "Down", "down the list", true),
    key(SharedKey::NextOld, KeyCode::Left, "Left", "the next old housing, where there are several", true),
    key(SharedKey::NextNew, KeyCode::Right, "Right", "the next new housing, where there are several", true),
    key(SharedKey::Other, KeyCode::Char('!'), "!", "other things one can do here", true),
    key(SharedKey::Help, KeyCode::Char('?'), "?", "help", false),
    key(SharedKey::Help, KeyCode::F(1), "F1", "help, while you type, too: ? goes into the field", true),
    key(SharedKey::Jump, KeyCode::Char('/'), "/", "jump to a cavity, wire, circuit or colour", false),
    key(SharedKey::Flip, KeyCode::Char('v'), "v", "view the other face", false),
    key(SharedKey::Turn, KeyCode::Char('u'), "u", "turn upside down", false),
    key(SharedKey::Leave, KeyCode::Char('q'), "q", "leave", false),
    CommonKey {
        with: KeyModifiers::CONTROL,
        ..key(
            SharedKey::GetOut,
            KeyCode::Char('c'),
            "Ctrl-C",
            "empties what you type; empty, it leaves",
            true,
        )
    },
];

/// Every one-key answer: the key and what it says. Two answers offered at once never share a
/// key; typing, clicking and tugging are three different keys.
pub const CHOICES: [(Choice, char, &str); 147] = [
    (Choice::Absent, 'n', "no such circuit here"),
    (Choice::AnotherAnchor, 'n', "look at one more hole"),
    (Choice::AsAsked, 'a', "as asked for"),
    (Choice::AssuranceIn, 'a', "it is in"),
    (Choice::AssuranceOff, 'a', "it is off"),
    (Choice::AtMachine, 'a', "the mating half is here now"),
    (Choice::Answer, 'a', "answer it again"),
    (Choice::Blocked, 'b', "blocked: moulded shut"),
    (Choice::Bridge, 'c', "clip, bridge or diode"),
    (Choice::Broken, 'b', "it is broken"),
    (Choice::ByTheDay, 'd', "needed by that day"),
    (Choice::Cleaned, 'c', "cleaned, sound now"),
    (Choice::Clicked, 'c', "in and clicked"),
    (Choice::ClipFits, 'c', "the clip agrees"),
    (Choice::CameDamaged, 'd', "damaged"),
    (Choice::Differs, 'n', "it differs"),
    (Choice::DontKnow, 'd', "don't know"),
    (Choice::Empty, 'e', "empty: nothing belongs there"),
    (Choice::Failed, 'f', "failed"),
    (Choice::Finger, 'f', "home, finger pressure only"),
    (Choice::Finished, 'f', "finished: every cavity is recorded"),
    (Choice::FlipRecord, 'f', "flip the whole record"),
    (Choice::HoldAnew, 'h', "say anew how it is held"),
    (Choice::ForGood, 'x', "out for good, under a document"),
    (Choice::Forced, 'r', "it needed force"),
    (Choice::FoundWins, 'f', "as found"),
    (Choice::Freely, 'f', "it came freely"),
    (Choice::FromStock, 'c', "in, a new one from stock"),
    (Choice::FromTray, 't', "in, the one from the tray"),
    (Choice::GenderFits, 'g', "the gender agrees"),
    (Choice::Good, 'g', "good"),
    (Choice::Held, 't', "tugged and held"),
    (Choice::InPlace, 'c', "in"),
    (Choice::KeyFits, 'k', "the key agrees"),
    (Choice::LatchFits, 'l', "the latch agrees"),
    (Choice::LeftThere, 'l', "left there"),
    (Choice::Level, 'y', "mated, wires level at the rear"),
    (Choice::LooksEven, 'e', "all even, straight and clean"),
    (Choice::LooksHigh, 'h', "all as high, right way up and clean"),
    (Choice::LoseIt, 'l', "lost"),
    (Choice::MachineStopped, 'm', "the machine stands still"),
    (Choice::MapByHand, 'h', "as mapped by hand"),
    (Choice::MapByPosition, 'o', "by position: the same hole"),
    (Choice::MapOne, 'x', "map one cavity by hand"),
    (Choice::MapPublished, 'p', "the published map"),
    (Choice::MapSame, 'm', "the same labels"),
    (Choice::MatingFace, 'm', "mating face towards you"),
    (Choice::Missing, 'm', "the seal is missing"),
    (Choice::New, 'n', "make a new job"),
    (Choice::No, 'n', "not so"),
    (Choice::NoClick, 'n', "in, no click"),
    (Choice::NoSeal, 'n', "it carries no seal"),
    (Choice::NotHeld, 'n', "it did not hold"),
    (Choice::NotHere, 'm', "the mating half is not here"),
    (Choice::NotLevel, 'n', "a wire was pushed back"),
    (Choice::NotSo, 'x', "not so: ask me each"),
    (Choice::NotSound, 'x', "not sound"),
    (Choice::OffMachine, 'm', "the harness is off the machine"),
    (Choice::Open, 'o', "open: something is missing"),
    (Choice::Other, 'o', "something else"),
    (Choice::Out, 'o', "out, freely, seal with it"),
    (Choice::Passed, 'p', "passed"),
    (Choice::Plugged, 'p', "plug"),
    (Choice::Pressed, 'p', "only by pressing"),
    (Choice::Proved, 'y', "tester proved before and after"),
    (Choice::PartArrived, 'i', "a part of the request arrived"),
    (Choice::PartOff, 'r', "it is off, in the tray"),
    (Choice::PartOn, 'f', "it is on"),
    (Choice::PushedAgain, 'a', "pushed again: it clicked"),
    (Choice::PutBack, 'b', "put back where it came from"),
    (Choice::PutRowRight, 'r', "put the row right"),
    (Choice::Reform, 'f', "re-form the tang"),
    (Choice::Released, 'r', "made safe or released, by name"),
    (Choice::RepairDone, 'd', "the repair is done"),
    (Choice::RepairLead, 'l', "a repair lead"),
    (Choice::RepairNeeded, 'r', "needs a repair"),
    (Choice::Replaced, 'r', "replaced by a sound one"),
    (Choice::Repeat, 'r', "repeat the last one"),
    (Choice::ReturnIt, 'r', "back to stock"),
    (Choice::ScrapIt, 's', "scrap"),
    (Choice::Seal, 's', "a new seal"),
    (Choice::SealWith, 's', "the seal came with it"),
    (Choice::Send, 's', "send the request"),
    (Choice::ShouldWins, 's', "as it should be"),
    (Choice::Sound, 's', "sound"),
    (Choice::Spare, 's', "spare terminal, no wire"),
    (Choice::Stop, 's', "STOP"),
    (Choice::Substitute, 's', "another part that may do"),
    (Choice::Tagged, 'k', "tag and park it"),
    (Choice::TakeBack, 'w', "a slip: take the STOP back"),
    (Choice::TakeUp, 't', "take it up"),
    (Choice::Terminal, 't', "a new terminal"),
    (Choice::TieBack, 'k', "insulate, tie back, tag"),
    (Choice::ToTray, 't', "into the tray"),
    (Choice::Unlocked, 'l', "released, it moved freely"),
    (Choice::UpBottom, '7', "bottom of the drawing up"),
    (Choice::UpFeature1, '1', ""),
    (Choice::UpFeature2, '2', ""),
    (Choice::UpFeature3, '3', ""),
    (Choice::UpLeft, '8', "left of the drawing up"),
    (Choice::UpRight, '6', "right of the drawing up"),
    (Choice::UpTop, '5', "top of the drawing up"),
    (Choice::WhenConvenient, 'w', "when convenient"),
    (Choice::CountColumns, 'c', "down each column"),
    (Choice::CountRound, 'o', "round the outside"),
    (Choice::CountRows, 'r', "row by row"),
    (Choice::FirstBottomLeft, '3', "bottom left"),
    (Choice::FirstBottomRight, '4', "bottom right"),
    (Choice::FirstTopLeft, '1', "top left"),
    (Choice::FirstTopRight, '2', "top right"),
    (Choice::LockComesOut, 'o', "one that comes out"),
    (Choice::LockNone, 'n', "none"),
    (Choice::LockStays, 'p', "one that stays, pushed to pre-set"),
    (Choice::Pins, 'p', "pins (male)"),
    (Choice::Sockets, 's', "sockets (female)"),
    (Choice::SealEach, 'e', "a seal on each wire"),
    (Choice::SealMat, 'm', "one mat"),
    (Choice::SealNone, 'n', "not sealed"),
    (Choice::SaveIt, 's', "save it"),
    (Choice::WireFace, 'w', "wires towards you"),
    (Choice::Wired, 'w', "wired"),
    (Choice::WrongPart, 'w', "the wrong part"),
    (Choice::Yes, 'y', "yes"),
    (Choice::DoIt, 'y', "as proposed"),
    (Choice::Otherwise, 'e', "decide otherwise"),
    (Choice::OrderLead, 'o', "say what the lead has to be"),
    (Choice::Redo, 'r', "cut it off, crimp again"),
    (Choice::SleeveOn, 'o', "the sleeve is on"),
    (Choice::FoundTang, 't', "tang flat"),
    (Choice::FoundLoose, 'f', "female loose"),
    (Choice::FoundBent, 'm', "male bent"),
    (Choice::FoundGreen, 'o', "corrosion, green or white"),
    (Choice::FoundBurnt, 'h', "burnt, heat-blue"),
    (Choice::FoundCrimp, 'c', "conductor crimp"),
    (Choice::FoundGrip, 'i', "insulation grip"),
    (Choice::FoundSeal, 's', "seal"),
    (Choice::FoundNick, 'n', "insulation behind the housing"),
    (Choice::FoundUnderSeal, 'w', "insulation under the seal"),
    (Choice::FoundShort, 'l', "wire too short"),
    (Choice::FoundDouble, 'd', "two wires in a sealed hole"),
    (Choice::FoundDrain, 'a', "no sleeve on the drain"),
    (Choice::LipUneven, 'l', "a seal lip not even"),
    (Choice::WireSlanted, 'w', "a wire crossed, tight or slanted"),
    (Choice::HoleDirty, 'h', "a hole not clean"),
    (Choice::TerminalLow, 'i', "a terminal not as high as the others"),
    (Choice::TerminalTurned, 't', "a terminal the wrong way up"),
    (Choice::SealBehind, 'b', "the seal is behind the splice"),
];

/// The key of an answer.
pub fn key_of(choice: Choice) -> char {
    CHOICES.iter().find(|(known, ..)| *known == choice).map_or(' ', |(_, key, _)| *key)
}

/// What an answer says.
pub fn words_of(choice: Choice) -> &'static str {
    CHOICES.iter().find(|(known, ..)| *known == choice).map_or("", |(.., text)| *text)
}

/// What a key press means to the handler.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pressed {
    /// A common key.
    SharedKey(SharedKey),
    /// A printable character.
    Char(char),
    /// Nothing of ours.
    Nothing,
}

/// Reads a key press; while a value is typed, only the keys marked so are common keys.
pub fn pressed(event: KeyEvent, in_field: bool) -> Pressed {
    // Held keys arrive as repeats where the terminal tells; they fill a field and never answer a question.
    let fills = in_field && matches!(event.code, KeyCode::Char(_) | KeyCode::Backspace);
    match event.kind {
        KeyEventKind::Press => {}
        KeyEventKind::Repeat if fills || matches!(event.code, KeyCode::Up | KeyCode::Down) => {}
        KeyEventKind::Repeat | KeyEventKind::Release => return Pressed::Nothing,
    }
    let held = event.modifiers.intersection(KeyModifiers::CONTROL | KeyModifiers::ALT);
    let is_it = |key: &&CommonKey| key.code == event.code && key.with == held && (key.in_field || !in_field);
    match (COMMON.iter().find(is_it), event.code) {
        (Some(key), _) => Pressed::SharedKey(key.does),
        (None, KeyCode::Char(c)) if held.is_empty() => Pressed::Char(c),
        (None, _) => Pressed::Nothing,
    }
}
