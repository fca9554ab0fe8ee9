//! What is not known exactly about a pedal, and one choice of it all.

/// What a travel depends on and nobody knows exactly. All figures of one kind go together: if one disc brake gives
/// much, all of them do, which is the worst case for a sum.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unknown {
    /// Travel of the pedal before the rod moves.
    FreePlay,
    /// The lever's ratio.
    PedalRatio,
    /// How a balance bar shares the force.
    BarShare,
    /// Flexing of pedal and bulkhead.
    PedalFlex,
    /// The help of a running booster.
    BoosterRatio,
    /// The most that a running booster adds.
    BoosterHelp,
    /// Bores of the master cylinder.
    MasterBore,
    /// Strokes of the master cylinder.
    MasterStroke,
    /// Travel that closes the ports.
    CutOff,
    /// Springs and seals of the master cylinder.
    Drag,
    /// Clearance of disc brakes.
    DiscClearance,
    /// Clearance of drum brakes.
    DrumClearance,
    /// Pressure that closes the clearance of disc brakes.
    DiscTouch,
    /// Pressure that closes the clearance of drum brakes.
    DrumTouch,
    /// Flexing of disc brakes.
    DiscGive,
    /// Flexing of drum brakes.
    DrumGive,
    /// Swelling of hoses.
    HoseGrowth,
    /// Settings of the valves.
    ValveSetting,
    /// Stiffness of the fluid.
    BulkModulus,
    /// Whether the air is squeezed slowly or fast.
    PolytropicIndex,
    /// The share of the clearance that pumping does not take up.
    LeftAfterPumping,
}

impl Unknown {
    /// All of them.
    pub const ALL: [Self; 21] = [
        Self::FreePlay,
        Self::PedalRatio,
        Self::BarShare,
        Self::PedalFlex,
        Self::BoosterRatio,
        Self::BoosterHelp,
        Self::MasterBore,
        Self::MasterStroke,
        Self::CutOff,
        Self::Drag,
        Self::DiscClearance,
        Self::DrumClearance,
        Self::DiscTouch,
        Self::DrumTouch,
        Self::DiscGive,
        Self::DrumGive,
        Self::HoseGrowth,
        Self::ValveSetting,
        Self::BulkModulus,
        Self::PolytropicIndex,
        Self::LeftAfterPumping,
    ];

    /// Its place in [`Unknown::ALL`].
    pub fn index(self) -> usize {
        self as usize
    }
}

/// A plain number with its bounds; the unit is in the name of the field that holds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The smallest value to reckon with.
    pub low: f64,
    /// The value to compute with where only one can be used.
    pub nominal: f64,
    /// The largest value to reckon with.
    pub high: f64,
    /// What it goes together with.
    pub unknown: Unknown,
}

impl Range {
    /// A range of what goes together with `unknown`.
    pub fn new(low: f64, nominal: f64, high: f64, unknown: Unknown) -> Self {
        Self {
            low,
            nominal,
            high,
            unknown,
        }
    }

    /// Whether there is nothing to vary.
    pub fn is_exact(&self) -> bool {
        self.low >= self.high
    }

    /// The same, each figure multiplied.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        self.times_each([factor; 3])
    }

    /// The same, each figure multiplied by its own.
    #[must_use]
    pub fn times_each(self, [low, nominal, high]: [f64; 3]) -> Self {
        Self {
            low: self.low * low,
            nominal: self.nominal * nominal,
            high: self.high * high,
            unknown: self.unknown,
        }
    }

    /// The value in one choice.
    pub fn at(&self, choice: &Choice) -> f64 {
        match choice.shares[self.unknown.index()] {
            None => self.nominal,
            Some(share) => self.low + share * (self.high - self.low),
        }
    }
}

/// One choice of everything that is unknown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Choice {
    /// For each unknown none for nominal, or how far from low (0) to high (1).
    shares: [Option<f64>; Unknown::ALL.len()],
}

impl Choice {
    /// Everything nominal.
    pub fn nominal() -> Self {
        Self::default()
    }

    /// The same with one of them elsewhere: 0 is low, 1 is high.
    #[must_use]
    pub fn with(mut self, unknown: Unknown, share: f64) -> Self {
        self.shares[unknown.index()] = Some(share);
        self
    }
}
