//! Every key of the program, once. The handler, the footer and the help page read these tables.
//!
//! While a value is typed, printable keys go into the field; elsewhere one key is one answer.
//! No chords, nothing a plain terminal cannot send.

use crossterm::event::{KeyCode, KeyEvent, KeyEventKind};

/// A key that works the same on every page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Common {
    Enter,
    Back,
    Erase,
    NextPage,
    LastPage,
    Up,
    Down,
    Other,
    Help,
    Jump,
    Flip,
    Turn,
    Leave,
}

/// A common key: what it is, how it is named, what it does, whether it also works while a value
/// is typed.
pub struct CommonKey {
    /// What it does, as a value.
    pub does: Common,
    /// What the keyboard sends.
    pub code: KeyCode,
    /// How it is named.
    pub name: &'static str,
    /// What it does, in words.
    pub text: &'static str,
    /// Whether it works while a value is typed.
    pub in_field: bool,
}

const fn key(
    does: Common,
    code: KeyCode,
    name: &'static str,
    text: &'static str,
    in_field: bool,
) -> CommonKey {
    CommonKey { does, code, name, text, in_field }
}

/// The common keys.
pub const COMMON: [CommonKey; 13] = [
    key(Common::Enter, KeyCode::Enter, "Enter", "ends what you type", true),
    key(Common::Back, KeyCode::Esc, "Esc", "one answer back", true),
    key(Common::Erase, KeyCode::Backspace, "Backspace", "erases a character", true),
    key(Common::NextPage, KeyCode::Tab, "Tab", "next page", true),
    key(Common::LastPage, KeyCode::BackTab, "Shift-Tab", "page before", true),
    key(Common::Up, KeyCode::Up, "Up", "up the list", true),
    key(Common::Down, KeyCode::Down, "Down", "down the list", true),
    key(Common::Other, KeyCode::Char('!'), "!", "other things one can do here", true),
    key(Common::Help, KeyCode::Char('?'), "?", "help", true),
    key(Common::Jump, KeyCode::Char('/'), "/", "jump to a cavity, wire, circuit or colour", false),
    key(Common::Flip, KeyCode::Char('v'), "v", "view the other face", false),
    key(Common::Turn, KeyCode::Char('u'), "u", "turn upside down", false),
    key(Common::Leave, KeyCode::Char('q'), "q", "leave", false),
];

/// A one-key answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Pick {
    Absent,
    AnotherAnchor,
    AsAsked,
    AtMachine,
    Answer,
    Blocked,
    Bridge,
    Broken,
    ByTheDay,
    Cleaned,
    Clicked,
    CameDamaged,
    Differs,
    DontKnow,
    Empty,
    Failed,
    Finger,
    Finished,
    FlipRecord,
    HoldAnew,
    ForGood,
    Forced,
    FoundWins,
    Freely,
    FromStock,
    FromTray,
    Good,
    Held,
    InPlace,
    LeftThere,
    Level,
    LoseIt,
    MachineStopped,
    MapByHand,
    MapByPosition,
    MapOne,
    MapPublished,
    MapSame,
    MatingFace,
    Missing,
    New,
    No,
    NoClick,
    NoSeal,
    NotHeld,
    NotHere,
    NotLevel,
    NotSo,
    NotSound,
    Off,
    OffMachine,
    On,
    Open,
    Other,
    Out,
    Passed,
    Plugged,
    Pressed,
    Proved,
    PartArrived,
    PushedAgain,
    PutBack,
    PutRowRight,
    Reform,
    Released,
    RepairDone,
    RepairLead,
    RepairNeeded,
    Replaced,
    Repeat,
    ReturnIt,
    ScrapIt,
    Seal,
    SealWith,
    Send,
    ShouldWins,
    Sound,
    Spare,
    Stop,
    Substitute,
    Tagged,
    TakeBack,
    TakeUp,
    Terminal,
    TieBack,
    ToTray,
    UpBottom,
    UpFeature1,
    UpFeature2,
    UpFeature3,
    UpLeft,
    UpRight,
    UpTop,
    WhenConvenient,
    CountColumns,
    CountRound,
    CountRows,
    FirstBottomLeft,
    FirstBottomRight,
    FirstTopLeft,
    FirstTopRight,
    LockComesOut,
    LockNone,
    LockStays,
    Pins,
    Sockets,
    SealEach,
    SealMat,
    SealNone,
    SaveIt,
    WireFace,
    Wired,
    WrongPart,
    Yes,
    DoIt,
    Otherwise,
    OrderLead,
    Redo,
    SleeveOn,
    FoundTang,
    FoundLoose,
    FoundBent,
    FoundGreen,
    FoundBurnt,
    FoundCrimp,
    FoundGrip,
    FoundSeal,
    FoundNick,
    FoundUnderSeal,
    FoundShort,
    FoundDouble,
    FoundDrain,
    LipUneven,
    WireSlanted,
    HoleDirty,
    TerminalLow,
    TerminalTurned,
    SealBehind,
}

/// Every one-key answer: the key and what it says. Two answers offered at once never share a
/// key; typing, clicking and tugging are three different keys.
pub const PICKS: [(Pick, char, &str); 138] = [
    (Pick::Absent, 'n', "no such circuit here"),
    (Pick::AnotherAnchor, 'n', "look at one more hole"),
    (Pick::AsAsked, 'a', "as asked for"),
    (Pick::AtMachine, 'a', "the mating half is here now"),
    (Pick::Answer, 'a', "answer it again"),
    (Pick::Blocked, 'b', "blocked: moulded shut"),
    (Pick::Bridge, 'c', "clip, bridge or diode"),
    (Pick::Broken, 'b', "it is broken"),
    (Pick::ByTheDay, 'd', "needed by that day"),
    (Pick::Cleaned, 'c', "cleaned, sound now"),
    (Pick::Clicked, 'c', "in and clicked"),
    (Pick::CameDamaged, 'd', "damaged"),
    (Pick::Differs, 'n', "it differs"),
    (Pick::DontKnow, 'd', "don't know"),
    (Pick::Empty, 'e', "empty: nothing belongs there"),
    (Pick::Failed, 'f', "failed"),
    (Pick::Finger, 'f', "home, finger pressure only"),
    (Pick::Finished, 'f', "finished: every cavity is recorded"),
    (Pick::FlipRecord, 'f', "flip the whole record"),
    (Pick::HoldAnew, 'h', "say anew how it is held"),
    (Pick::ForGood, 'x', "out for good, under a document"),
    (Pick::Forced, 'r', "it needed force"),
    (Pick::FoundWins, 'f', "as found"),
    (Pick::Freely, 'f', "it came freely"),
    (Pick::FromStock, 'c', "in, a new one from stock"),
    (Pick::FromTray, 't', "in, the one from the tray"),
    (Pick::Good, 'g', "good"),
    (Pick::Held, 't', "tugged and held"),
    (Pick::InPlace, 'c', "in"),
    (Pick::LeftThere, 'l', "left there"),
    (Pick::Level, 'y', "mated, wires level at the rear"),
    (Pick::LoseIt, 'l', "lost"),
    (Pick::MachineStopped, 'm', "the machine stands still"),
    (Pick::MapByHand, 'h', "as mapped by hand"),
    (Pick::MapByPosition, 'o', "by position: the same hole"),
    (Pick::MapOne, 'x', "map one cavity by hand"),
    (Pick::MapPublished, 'p', "the published map"),
    (Pick::MapSame, 'm', "the same labels"),
    (Pick::MatingFace, 'm', "mating face towards you"),
    (Pick::Missing, 'm', "the seal is missing"),
    (Pick::New, 'n', "make a new job"),
    (Pick::No, 'n', "not so"),
    (Pick::NoClick, 'n', "in, no click"),
    (Pick::NoSeal, 'n', "it carries no seal"),
    (Pick::NotHeld, 'n', "it did not hold"),
    (Pick::NotHere, 'm', "the mating half is not here"),
    (Pick::NotLevel, 'n', "a wire was pushed back"),
    (Pick::NotSo, 'x', "not so: ask me each"),
    (Pick::NotSound, 'x', "not sound"),
    (Pick::Off, 'o', "off"),
    (Pick::OffMachine, 'm', "the harness is off the machine"),
    (Pick::On, 'o', "on"),
    (Pick::Open, 'o', "open: something is missing"),
    (Pick::Other, 'o', "something else"),
    (Pick::Out, 'o', "out, freely, seal with it"),
    (Pick::Passed, 'p', "passed"),
    (Pick::Plugged, 'p', "plug"),
    (Pick::Pressed, 'p', "only by pressing"),
    (Pick::Proved, 'y', "tester proved before and after"),
    (Pick::PartArrived, 'i', "a part of the request arrived"),
    (Pick::PushedAgain, 'a', "pushed again: it clicked"),
    (Pick::PutBack, 'b', "put back where it came from"),
    (Pick::PutRowRight, 'r', "put the row right"),
    (Pick::Reform, 'f', "re-form the tang"),
    (Pick::Released, 'r', "made safe or released, by name"),
    (Pick::RepairDone, 'd', "the repair is done"),
    (Pick::RepairLead, 'l', "a repair lead"),
    (Pick::RepairNeeded, 'r', "needs a repair"),
    (Pick::Replaced, 'r', "replaced by a sound one"),
    (Pick::Repeat, 'r', "repeat the last one"),
    (Pick::ReturnIt, 'r', "back to stock"),
    (Pick::ScrapIt, 's', "scrap"),
    (Pick::Seal, 's', "a new seal"),
    (Pick::SealWith, 's', "the seal came with it"),
    (Pick::Send, 's', "send the request"),
    (Pick::ShouldWins, 's', "as it should be"),
    (Pick::Sound, 's', "sound"),
    (Pick::Spare, 's', "spare terminal, no wire"),
    (Pick::Stop, 's', "STOP"),
    (Pick::Substitute, 's', "another part that may do"),
    (Pick::Tagged, 'k', "tag and park it"),
    (Pick::TakeBack, 'w', "a slip: take the STOP back"),
    (Pick::TakeUp, 't', "take it up"),
    (Pick::Terminal, 't', "a new terminal"),
    (Pick::TieBack, 'k', "insulate, tie back, tag"),
    (Pick::ToTray, 't', "into the tray"),
    (Pick::UpBottom, '7', "bottom of the drawing up"),
    (Pick::UpFeature1, '1', ""),
    (Pick::UpFeature2, '2', ""),
    (Pick::UpFeature3, '3', ""),
    (Pick::UpLeft, '8', "left of the drawing up"),
    (Pick::UpRight, '6', "right of the drawing up"),
    (Pick::UpTop, '5', "top of the drawing up"),
    (Pick::WhenConvenient, 'w', "when convenient"),
    (Pick::CountColumns, 'c', "down each column"),
    (Pick::CountRound, 'o', "round the outside"),
    (Pick::CountRows, 'r', "row by row"),
    (Pick::FirstBottomLeft, '3', "bottom left"),
    (Pick::FirstBottomRight, '4', "bottom right"),
    (Pick::FirstTopLeft, '1', "top left"),
    (Pick::FirstTopRight, '2', "top right"),
    (Pick::LockComesOut, 'o', "one that comes out"),
    (Pick::LockNone, 'n', "none"),
    (Pick::LockStays, 'p', "one that stays, pushed to pre-set"),
    (Pick::Pins, 'p', "pins (male)"),
    (Pick::Sockets, 's', "sockets (female)"),
    (Pick::SealEach, 'e', "a seal on each wire"),
    (Pick::SealMat, 'm', "one mat"),
    (Pick::SealNone, 'n', "not sealed"),
    (Pick::SaveIt, 's', "save it"),
    (Pick::WireFace, 'w', "wires towards you"),
    (Pick::Wired, 'w', "wired"),
    (Pick::WrongPart, 'w', "the wrong part"),
    (Pick::Yes, 'y', "yes"),
    (Pick::DoIt, 'y', "as proposed"),
    (Pick::Otherwise, 'e', "decide otherwise"),
    (Pick::OrderLead, 'o', "say what the lead has to be"),
    (Pick::Redo, 'r', "cut it off, crimp again"),
    (Pick::SleeveOn, 'o', "the sleeve is on"),
    (Pick::FoundTang, 't', "tang flat"),
    (Pick::FoundLoose, 'f', "female loose"),
    (Pick::FoundBent, 'm', "male bent"),
    (Pick::FoundGreen, 'o', "corrosion, green or white"),
    (Pick::FoundBurnt, 'h', "burnt, heat-blue"),
    (Pick::FoundCrimp, 'c', "conductor crimp"),
    (Pick::FoundGrip, 'i', "insulation grip"),
    (Pick::FoundSeal, 's', "seal"),
    (Pick::FoundNick, 'n', "insulation behind the housing"),
    (Pick::FoundUnderSeal, 'w', "insulation under the seal"),
    (Pick::FoundShort, 'l', "wire too short"),
    (Pick::FoundDouble, 'd', "two wires in a sealed hole"),
    (Pick::FoundDrain, 'a', "no sleeve on the drain"),
    (Pick::LipUneven, 'l', "a seal lip not even"),
    (Pick::WireSlanted, 'w', "a wire crossed, tight or slanted"),
    (Pick::HoleDirty, 'h', "a hole not clean"),
    (Pick::TerminalLow, 'i', "a terminal not as high as the others"),
    (Pick::TerminalTurned, 't', "a terminal the wrong way up"),
    (Pick::SealBehind, 'b', "the seal is behind the splice"),
];

impl Pick {
    /// The key.
    pub fn key(self) -> char {
        PICKS.iter().find(|(pick, ..)| *pick == self).map_or(' ', |(_, key, _)| *key)
    }

    /// What it says.
    pub fn text(self) -> &'static str {
        PICKS.iter().find(|(pick, ..)| *pick == self).map_or("", |(.., text)| *text)
    }
}

/// What a key press means to the handler.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pressed {
    /// A common key.
    Common(Common),
    /// A printable character.
    Char(char),
    /// Nothing of ours.
    Nothing,
}

/// Reads a key press; while a value is typed, only the keys marked so are common keys.
pub fn pressed(event: KeyEvent, in_field: bool) -> Pressed {
    // Held keys arrive as repeats where the terminal tells; they never answer a question.
    if event.kind != KeyEventKind::Press {
        return Pressed::Nothing;
    }
    // Not a chord of ours, but what every terminal user reaches for to get out.
    if event.code == KeyCode::Char('c') && event.modifiers.contains(crossterm::event::KeyModifiers::CONTROL) {
        return Pressed::Common(Common::Leave);
    }
    if event
        .modifiers
        .intersects(crossterm::event::KeyModifiers::CONTROL | crossterm::event::KeyModifiers::ALT)
    {
        return Pressed::Nothing;
    }
    let common = COMMON.iter().find(|k| k.code == event.code && (k.in_field || !in_field));
    match (common, event.code) {
        (Some(key), _) => Pressed::Common(key.does),
        (None, KeyCode::Char(c)) => Pressed::Char(c),
        _ => Pressed::Nothing,
    }
}
