//! Causes of damage, and what each asks to be looked at besides the housing.

/// Makes the causes, their words and what they ask for from one table.
macro_rules! causes {
    ($($name:ident $words:literal, $look:literal;)*) => {
        /// Why a connector was damaged.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum DamageCause { $(#[doc = $words] $name,)* }

        impl DamageCause {
            /// Every cause, in the order it is asked.
            pub const ALL: &[DamageCause] = &[$(DamageCause::$name,)*];

            /// The cause in words.
            pub fn words(self) -> &'static str {
                match self { $(DamageCause::$name => $words,)* }
            }

            /// What it asks to be looked at besides.
            pub fn look_also(self) -> &'static str {
                match self { $(DamageCause::$name => $look,)* }
            }
        }
    };
}

causes! {
    OutsideHeat "heat from outside",
        "the source of the heat and its shield; insulation along the whole hot stretch; the next connector beside it";
    Overload "overload or a bad contact",
        "fuse size and load current of each browned circuit; drop under load; the mating terminals; the next one burns, too, until the cause is gone";
    Chafing "chafing",
        "what it rubs on, every clip and grommet along the branch, insulation and screen under the covering";
    Rodent "a gnawing animal",
        "the whole harness end to end, also under coverings, hoses beside it, and how the animal got in";
    Crash "a crash or a blow",
        "brackets, the mating half, pulled terminals at both ends, restraint circuits (stop: document first)";
    Water "water or a missing seal or plug",
        "neighbours up the wire to bright copper, the mating half, the way the water came, every other plug";
    EarlierRepair "an earlier repair",
        "every earlier splice and crimp on the branch, gauges and colours against the diagram, what the earlier repair was for";
    Pulled "pulled or under strain",
        "strain relief, slack at both ends, crimps of the shortest wires, the clips that let go";
    Vibration "vibration or wear",
        "mounting clip, play between the halves, fretting on the contacts, strain relief";
}
