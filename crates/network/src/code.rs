//! The catalogue of finding codes. A code is never given a second meaning.

use Severity::{Advice, Error, Warning};

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Nothing is planned until it is mended.
    Error,
    /// The plan is made, but somebody must look.
    Warning,
    /// Worth knowing; usually a preparation of the plan follows from it.
    Advice,
}

impl Severity {
    /// The word printed.
    pub fn name(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Advice => "advice",
        }
    }
}

macro_rules! codes {
    ($($name:ident, $text:literal, $severity:ident, $title:literal;)+) => {
        /// A stable finding code.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[non_exhaustive]
        pub enum Code {
            $(#[doc = $title] $name,)+
        }

        impl Code {
            /// Every code, in the order of its number.
            pub const ALL: &'static [Code] = &[$(Code::$name),+];

            /// The code as printed.
            pub fn text(self) -> &'static str {
                match self { $(Code::$name => $text),+ }
            }

            /// What the code is about, in a few words.
            pub fn title(self) -> &'static str {
                match self { $(Code::$name => $title),+ }
            }

            /// How much it matters.
            pub fn severity(self) -> Severity {
                match self { $(Code::$name => $severity),+ }
            }
        }
    };
}

codes! {
    Syntax, "BW001", Error, "the text is not valid RON";
    UnknownField, "BW002", Error, "unknown field";
    UnknownWord, "BW003", Error, "unknown kind of part or word";
    MissingField, "BW004", Error, "a required field is missing";
    RepeatedField, "BW005", Error, "a field is given twice";
    WrongType, "BW006", Error, "a value of another type is expected";
    TooLarge, "BW007", Error, "the file is too large";
    NotText, "BW008", Error, "the file is not UTF-8 text";
    UnknownFormat, "BW009", Error, "unknown format number";
    TooDeep, "BW010", Error, "brackets are nested too deeply";

    MissingUnit, "BW101", Error, "a number without a unit";
    UnknownUnit, "BW102", Error, "unknown unit";
    NotANumber, "BW103", Error, "not a quantity";
    NotFinite, "BW104", Error, "not a finite number";
    NotPositive, "BW105", Error, "zero or negative";
    Implausible, "BW106", Error, "implausibly small or large";
    BadTolerance, "BW107", Error, "a tolerance larger than its value";
    UnknownSize, "BW108", Error, "no such nominal pipe size";
    BadName, "BW109", Error, "a name that cannot be used";
    DuplicateName, "BW110", Error, "two things with one name";
    SizeOrBore, "BW111", Error, "a pipe needs a size or a bore";
    LevelMarks, "BW112", Error, "reservoir level marks out of order";
    Chambers, "BW113", Error, "chambers of a brake that do not fit together";
    StrokeUsedUp, "BW114", Error, "the cut-off uses up the stroke";
    ViscosityPoints, "BW115", Error, "points of viscosity that do not fit together";
    OddUnit, "BW116", Warning, "a length in other units than the rest, and far from its like";

    UnknownPart, "BW201", Error, "a name that no part has";
    UnknownPort, "BW202", Error, "a port that the part does not have, or not chosen";
    LineToItself, "BW203", Error, "a line from a part to itself";
    LooseEnd, "BW204", Error, "a part without a line";
    Unreached, "BW205", Error, "no cylinder chamber reaches it";
    NoScrew, "BW206", Error, "a brake that cannot be bled";
    CircuitsJoined, "BW207", Error, "two circuits are joined";
    Loop, "BW208", Warning, "a loop inside one circuit";
    NotFed, "BW209", Error, "a chamber that no reservoir feeds, or two";
    FeedsNothing, "BW210", Warning, "a reservoir compartment that feeds nothing";
    SplitContradicted, "BW211", Error, "the declared split contradicts the pipework";
    WheelContradicted, "BW212", Error, "the declared wheel contradicts the pipework or the position";
    UnknownScrew, "BW213", Error, "the maker's order names no such screw";
    FittedBackwards, "BW214", Warning, "a valve fitted against the flow";
    BalanceBar, "BW215", Error, "a balance bar that does not join two single cylinders";
    NoWheel, "BW216", Warning, "a brake that belongs to no wheel";
    OneWheelTwice, "BW217", Warning, "two brakes of one wheel that nothing tells apart";
    CarWheels, "BW218", Warning, "wheels of a car on what seems a motorcycle";

    NoPartner, "BW219", Warning, "a wheel whose partner has no brake";
    OneBrake, "BW220", Warning, "a circuit with one brake";
    TeeOfTwo, "BW221", Warning, "a tee with fewer than three lines";
    UnequalPistons, "BW222", Warning, "unequal pistons on one axle";
    FrontLimited, "BW223", Warning, "a valve that holds pressure back from front brakes";
    BarRatios, "BW224", Warning, "two pedal ratios on one balance bar";

    NotAtTop, "BW301", Warning, "a screw that is not the top of its cavity";
    HighPoint, "BW302", Warning, "a high point on the way to a screw";
    HoldMetering, "BW303", Advice, "a metering valve that must be held open";
    SetLaden, "BW304", Advice, "a load-sensing valve to be set laden";
    NeedsRoutine, "BW305", Warning, "an anti-lock unit that needs its maker's routine";
    ValveBlocksReverse, "BW306", Error, "a check valve blocks reverse bleeding";
    ResidualValve, "BW307", Advice, "a residual valve on the run";
    StoredPressure, "BW308", Warning, "stored pressure";
    OtherFamily, "BW309", Error, "new fluid of another family";
    LowerGrade, "BW310", Warning, "new fluid of a lower grade";
    SharedReservoir, "BW311", Advice, "a reservoir shared with the clutch";
    MakerOrderUnsafe, "BW312", Warning, "the maker's order departs from the pipework";
    FluidUnknown, "BW313", Warning, "the layout names no fluid";
    SmallReservoir, "BW314", Warning, "less than a stroke between the level limit and the mark";
    ScrewStaysShut, "BW315", Advice, "a second screw on a cavity that stays shut";
    Guessed, "BW316", Advice, "values marked as guesses";
    OrderUncertain, "BW317", Advice, "an order that tolerances leave open and one measurement settles";
    RearNearer, "BW318", Advice, "a rear brake nearer to its master cylinder than a front one";
    BrakeAbove, "BW319", Warning, "a brake above the reservoir or the cylinder that feeds it";
    TorqueUnusual, "BW320", Warning, "a torque that is unusual for a bleed screw";
    SmallForWear, "BW321", Warning, "a compartment too small for the wear of the linings";
    WearOpen, "BW322", Advice, "a compartment that may be too small for the wear of the linings";
    ThickerFluid, "BW323", Warning, "new fluid that may be thicker in the cold";
    OtherGrade, "BW324", Warning, "new fluid of another grade, for the maker to allow";

    OptionName, "BW401", Error, "an option names nothing in the layout";
    CannotClamp, "BW402", Error, "a line that must not be clamped";
    OrderUnsafe, "BW403", Warning, "the order given breaks a rule of the pipework";
    CircuitFirstUnsafe, "BW404", Warning, "the circuit asked for cannot go first";
    ResidualTooLow, "BW405", Error, "a residual that cannot be reached";
    StrokeTooShort, "BW406", Error, "a stroke that moves no fluid";
    NoReverseRenewal, "BW407", Error, "the reverse method cannot renew the fluid";
    Depressurise, "BW408", Error, "stored pressure was not released";
    Skipped, "BW409", Warning, "a screw in scope is left out";
    NothingToDo, "BW410", Error, "no screw is in scope";
    DoesNotRun, "BW411", Error, "a method by which no fluid runs";
    StrokeToTheEnd, "BW412", Warning, "a stroke that may run the piston to its end";
    Temperature, "BW413", Error, "a temperature outside of what fluids are known at";
    OrderTooLong, "BW414", Error, "an order that opens its screws too often";
    RunsTooLong, "BW415", Error, "runs that together are too long to be planned";
    TankPressure, "BW416", Warning, "more pressure in the tank than usual";
    NewUnit, "BW417", Error, "a new anti-lock unit of which nobody said whether it came filled or dry";
    OpensNothing, "BW418", Error, "work that opens no joint";
    KeepsNothingFull, "BW419", Error, "a plug or a propped pedal that keeps no line full";
    ProppedUnderPressure, "BW420", Error, "a pedal propped where pressure is stored";
    NewFluidUnjudged, "BW421", Error, "new fluid for a layout that names none";
    NothingStored, "BW422", Error, "released pressure that nothing stores";

    NotARecord, "BW501", Error, "not a record of readings";
    ReadingsContradict, "BW502", Error, "readings that cannot both be true";
    NotOnTheVehicle, "BW503", Error, "an item that the vehicle's list does not name";
}
