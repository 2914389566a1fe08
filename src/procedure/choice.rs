//! What can be answered with one key, as meaning. Which key that is, and what it says, the screen decides.

/// A one-key answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Choice {
    /// No such circuit here.
    Absent,
    /// Look at one more hole.
    AnotherAnchor,
    /// As asked for.
    AsAsked,
    /// It is in.
    AssuranceIn,
    /// It is off.
    AssuranceOff,
    /// The mating half is here now.
    AtMachine,
    /// Answer it again.
    Answer,
    /// Blocked: moulded shut.
    Blocked,
    /// Clip, bridge or diode.
    Bridge,
    /// It is broken.
    Broken,
    /// Needed by that day.
    ByTheDay,
    /// Cleaned, sound now.
    Cleaned,
    /// In and clicked.
    Clicked,
    /// The clip agrees.
    ClipFits,
    /// Damaged.
    CameDamaged,
    /// It differs.
    Differs,
    /// Don't know.
    DontKnow,
    /// Empty: nothing belongs there.
    Empty,
    /// Failed.
    Failed,
    /// Home, finger pressure only.
    Finger,
    /// Finished: every cavity is recorded.
    Finished,
    /// Flip the whole record.
    FlipRecord,
    /// Say anew how it is held.
    HoldAnew,
    /// Out for good, under a document.
    ForGood,
    /// It needed force.
    Forced,
    /// As found.
    FoundWins,
    /// It came freely.
    Freely,
    /// In, a new one from stock.
    FromStock,
    /// In, the one from the tray.
    FromTray,
    /// The gender agrees.
    GenderFits,
    /// Good.
    Good,
    /// Tugged and held.
    Held,
    /// In.
    InPlace,
    /// The key agrees.
    KeyFits,
    /// The latch agrees.
    LatchFits,
    /// Left there.
    LeftThere,
    /// Mated, wires level at the rear.
    Level,
    /// All even, straight and clean.
    LooksEven,
    /// All as high, right way up and clean.
    LooksHigh,
    /// Lost.
    LoseIt,
    /// The machine stands still.
    MachineStopped,
    /// As mapped by hand.
    MapByHand,
    /// By position: the same hole.
    MapByPosition,
    /// Map one cavity by hand.
    MapOne,
    /// The published map.
    MapPublished,
    /// The same labels.
    MapSame,
    /// Mating face towards you.
    MatingFace,
    /// The seal is missing.
    Missing,
    /// Make a new job.
    New,
    /// Not so.
    No,
    /// In, no click.
    NoClick,
    /// It carries no seal.
    NoSeal,
    /// It did not hold.
    NotHeld,
    /// The mating half is not here.
    NotHere,
    /// A wire was pushed back.
    NotLevel,
    /// Not so: ask me each.
    NotSo,
    /// Not sound.
    NotSound,
    /// The harness is off the machine.
    OffMachine,
    /// Open: something is missing.
    Open,
    /// Something else.
    Other,
    /// Out, freely, seal with it.
    Out,
    /// Passed.
    Passed,
    /// Plug.
    Plugged,
    /// Only by pressing.
    Pressed,
    /// Tester proved before and after.
    Proved,
    /// A part of the request arrived.
    PartArrived,
    /// It is off, in the tray.
    PartOff,
    /// It is on.
    PartOn,
    /// Pushed again: it clicked.
    PushedAgain,
    /// Put back where it came from.
    PutBack,
    /// Put the row right.
    PutRowRight,
    /// Re-form the tang.
    Reform,
    /// Made safe or released, by name.
    Released,
    /// The repair is done.
    RepairDone,
    /// A repair lead.
    RepairLead,
    /// Needs a repair.
    RepairNeeded,
    /// Replaced by a sound one.
    Replaced,
    /// Repeat the last one.
    Repeat,
    /// Back to stock.
    ReturnIt,
    /// Scrap.
    ScrapIt,
    /// A new seal.
    Seal,
    /// The seal came with it.
    SealWith,
    /// Send the request.
    Send,
    /// As it should be.
    ShouldWins,
    /// Sound.
    Sound,
    /// Spare terminal, no wire.
    Spare,
    /// STOP.
    Stop,
    /// Another part that may do.
    Substitute,
    /// Tag and park it.
    Tagged,
    /// A slip: take the STOP back.
    TakeBack,
    /// Take it up.
    TakeUp,
    /// A new terminal.
    Terminal,
    /// Insulate, tie back, tag.
    TieBack,
    /// Into the tray.
    ToTray,
    /// Released, it moved freely.
    Unlocked,
    /// Bottom of the drawing up.
    UpBottom,
    /// The first feature of the definition up.
    UpFeature1,
    /// The second feature up.
    UpFeature2,
    /// The third feature up.
    UpFeature3,
    /// Left of the drawing up.
    UpLeft,
    /// Right of the drawing up.
    UpRight,
    /// Top of the drawing up.
    UpTop,
    /// When convenient.
    WhenConvenient,
    /// Down each column.
    CountColumns,
    /// Round the outside.
    CountRound,
    /// Row by row.
    CountRows,
    /// Bottom left.
    FirstBottomLeft,
    /// Bottom right.
    FirstBottomRight,
    /// Top left.
    FirstTopLeft,
    /// Top right.
    FirstTopRight,
    /// One that comes out.
    LockComesOut,
    /// None.
    LockNone,
    /// One that stays, pushed to pre-set.
    LockStays,
    /// Pins (male).
    Pins,
    /// Sockets (female).
    Sockets,
    /// A seal on each wire.
    SealEach,
    /// One mat.
    SealMat,
    /// Not sealed.
    SealNone,
    /// Save it.
    SaveIt,
    /// Wires towards you.
    WireFace,
    /// Wired.
    Wired,
    /// The wrong part.
    WrongPart,
    /// Yes.
    Yes,
    /// As proposed.
    DoIt,
    /// Decide otherwise.
    Otherwise,
    /// Say what the lead has to be.
    OrderLead,
    /// Cut it off, crimp again.
    Redo,
    /// The sleeve is on.
    SleeveOn,
    /// Tang flat.
    FoundTang,
    /// Female loose.
    FoundLoose,
    /// Male bent.
    FoundBent,
    /// Corrosion, green or white.
    FoundGreen,
    /// Burnt, heat-blue.
    FoundBurnt,
    /// Conductor crimp.
    FoundCrimp,
    /// Insulation grip.
    FoundGrip,
    /// Seal.
    FoundSeal,
    /// Insulation behind the housing.
    FoundNick,
    /// Insulation under the seal.
    FoundUnderSeal,
    /// Wire too short.
    FoundShort,
    /// Two wires in a sealed hole.
    FoundDouble,
    /// No sleeve on the drain.
    FoundDrain,
    /// A seal lip not even.
    LipUneven,
    /// A wire crossed, tight or slanted.
    WireSlanted,
    /// A hole not clean.
    HoleDirty,
    /// A terminal not as high as the others.
    TerminalLow,
    /// A terminal the wrong way up.
    TerminalTurned,
    /// The seal is behind the splice.
    SealBehind,
}
