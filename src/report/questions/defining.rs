//! A housing that is described, in words.

use crate::procedure::DefineQuestion;

/// A question about a housing nobody has a file of.
pub fn define_prompt(asked: DefineQuestion) -> &'static str {
    match asked {
        DefineQuestion::Part => "PART NUMBER moulded on it? (or a name of your own)",
        DefineQuestion::Rows => "How many ROWS do you see?",
        DefineQuestion::Columns => "How many cavities in a row?",
        DefineQuestion::Face => "Which FACE do you look at?",
        DefineQuestion::Feature => "What is on the UPPER side? (latch, key, lock, lever; - nothing)",
        DefineQuestion::FirstAt => "Where is the FIRST number moulded?",
        DefineQuestion::Counting => "How do the numbers go on?",
        DefineQuestion::First => "What is moulded at the first cavity? (1, A1, A)",
        DefineQuestion::LetterPerRow => "Does each row have a letter of its own?",
        DefineQuestion::Gender => "Are its terminals pins or sockets?",
        DefineQuestion::Sealing => "How is it SEALED?",
        DefineQuestion::Lock => "Has it a secondary LOCK?",
        DefineQuestion::Plugged => "Which cavities came with a PLUG? (3, 7..9; - none)",
        DefineQuestion::Blocked => "Which are MOULDED SHUT? (6, 11..12; - none)",
        DefineQuestion::CavitySize => "Size of a cavity, as its terminals are called? (1.5; - not known)",
        DefineQuestion::Save => "This is the housing. Look at it once more, and save it.",
    }
}
