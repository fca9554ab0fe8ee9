//! The fixed words of a layout file.

use serde::Deserialize;

macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($variant:ident = $word:literal, $text:literal;)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
        pub enum $name {
            $(#[doc = $text] #[serde(rename = $word)] $variant,)+
        }

        impl $name {
            /// Every word, in the order of its declaration.
            pub const ALL: &'static [$name] = &[$($name::$variant),+];

            /// As written in files and JSON.
            pub fn word(self) -> &'static str {
                match self { $($name::$variant => $word),+ }
            }

            /// As printed for people.
            pub fn text(self) -> &'static str {
                match self { $($name::$variant => $text),+ }
            }
        }
    };
}

words! {
    /// A wheel. Motorcycles have `front` and `rear` only.
    Wheel {
        FrontLeft = "front_left", "front left";
        FrontRight = "front_right", "front right";
        MiddleLeft = "middle_left", "middle left";
        MiddleRight = "middle_right", "middle right";
        RearLeft = "rear_left", "rear left";
        RearRight = "rear_right", "rear right";
        TrailerLeft = "trailer_left", "trailer left";
        TrailerRight = "trailer_right", "trailer right";
        Front = "front", "front";
        Rear = "rear", "rear";
    }
}

words! {
    /// What works a brake when the vehicle is parked.
    ParkingBrake {
        Cable = "cable", "by a cable";
        Electric = "electric", "by a motor";
    }
}

words! {
    /// The side the driver sits on, and with it the master cylinder.
    Steering {
        Left = "left", "left-hand drive";
        Right = "right", "right-hand drive";
        Centre = "centre", "central steering";
    }
}

words! {
    /// A fluid grade of FMVSS 116, with the low-viscosity DOT 4 of ISO 4925
    /// class 6 and the mineral oil that some systems are made for.
    Fluid {
        Dot3 = "dot3", "DOT 3";
        Dot4 = "dot4", "DOT 4";
        Dot4LowViscosity = "dot4_low_viscosity", "low-viscosity DOT 4 (ISO 4925 class 6)";
        Dot5 = "dot5", "DOT 5 (silicone, not DOT 5.1)";
        Dot51 = "dot5_1", "DOT 5.1 (not the silicone DOT 5)";
        Mineral = "mineral", "hydraulic system mineral oil";
    }
}

words! {
    /// Fluids that may be mixed with each other without harm to the seals.
    FluidFamily {
        Glycol = "glycol", "glycol-ether or borate-ester based";
        Silicone = "silicone", "silicone based";
        MineralOil = "mineral", "mineral oil based";
    }
}

impl Fluid {
    /// The family within which fluids mix.
    pub fn family(self) -> FluidFamily {
        match self {
            Self::Dot3 | Self::Dot4 | Self::Dot4LowViscosity | Self::Dot51 => FluidFamily::Glycol,
            Self::Dot5 => FluidFamily::Silicone,
            Self::Mineral => FluidFamily::MineralOil,
        }
    }

    /// The least dry boiling point in degrees Celsius that the grade's
    /// standard allows; mineral oil has none. FMVSS 116 S5.1.1; for the
    /// low-viscosity grade ISO 4925 class 6 (from memory).
    pub fn least_dry_boiling_point_degc(self) -> Option<f64> {
        match self {
            Self::Dot3 => Some(205.0),
            Self::Dot4 => Some(230.0),
            Self::Dot4LowViscosity => Some(250.0),
            Self::Dot5 | Self::Dot51 => Some(260.0),
            Self::Mineral => None,
        }
    }

    /// The greatest kinematic viscosity at -40 degC that the grade's texts allow, the lowest of them; mineral oil has
    /// none. ISO 4925 (from memory); the same in FMVSS 116 S5.1.3 (second-hand) but for DOT 4, which may have 1800.
    pub fn most_cold_viscosity_mm2_s(self) -> Option<f64> {
        match self {
            Self::Dot3 | Self::Dot4 => Some(1500.0),
            Self::Dot4LowViscosity => Some(750.0),
            Self::Dot5 | Self::Dot51 => Some(900.0),
            Self::Mineral => None,
        }
    }
}

words! {
    /// How two circuits are shared among the wheels (names of DIN 74000), or
    /// that there is one circuit, or another arrangement.
    Split {
        II = "II", "II (front axle / rear axle)";
        X = "X", "X (diagonal)";
        HI = "HI", "HI (all wheels / front axle)";
        LL = "LL", "LL (front axle and one rear wheel each)";
        HH = "HH", "HH (all wheels / all wheels)";
        Single = "single", "single circuit";
        Other = "other", "other arrangement";
    }
}

words! {
    /// What a master cylinder works.
    Works {
        Brake = "brake", "brake";
        Clutch = "clutch", "clutch";
    }
}

words! {
    /// What the driver presses, or what pushes the cylinder.
    Control {
        Pedal = "pedal", "pedal";
        HandLever = "hand_lever", "hand lever";
        Coupler = "coupler", "overrun coupler";
    }
}

words! {
    /// Where a booster takes its force from.
    BoosterKind {
        Vacuum = "vacuum", "vacuum booster";
        Hydraulic = "hydraulic", "hydraulic booster";
        Electric = "electric", "electric booster";
    }
}

words! {
    /// What a hose is made of.
    HoseMaterial {
        Rubber = "rubber", "rubber";
        Braided = "braided", "braided";
    }
}

words! {
    /// The expansion class marked on a hose (FMVSS 106: HR and HL).
    Expansion {
        Regular = "regular", "regular expansion (HR)";
        Low = "low", "low expansion (HL)";
    }
}

words! {
    /// How a caliper is mounted.
    Mounting {
        Fixed = "fixed", "fixed";
        Sliding = "sliding", "sliding";
    }
}

words! {
    /// How far the linings are worn, and so how far the pistons stand out.
    Lining {
        New = "new", "new linings";
        HalfWorn = "half_worn", "half-worn linings";
        Worn = "worn", "worn linings";
    }
}

words! {
    /// Which of two cylinders on one wheel.
    Level {
        Upper = "upper", "upper";
        Lower = "lower", "lower";
    }
}

/// The side of the vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left of the direction of travel.
    Left,
    /// Right of the direction of travel.
    Right,
}

impl Wheel {
    /// The side the wheel is on; none for motorcycles.
    pub fn side(self) -> Option<Side> {
        match self {
            Self::FrontLeft | Self::MiddleLeft | Self::RearLeft | Self::TrailerLeft => {
                Some(Side::Left)
            }
            Self::FrontRight | Self::MiddleRight | Self::RearRight | Self::TrailerRight => {
                Some(Side::Right)
            }
            Self::Front | Self::Rear => None,
        }
    }

    /// The wheel on the other side of its axle; none for motorcycles.
    pub fn partner(self) -> Option<Self> {
        let side = self.side()?;
        let is_partner =
            |other: &Self| other.axle() == self.axle() && other.side().is_some_and(|it| it != side);
        Self::ALL.iter().copied().find(is_partner)
    }

    /// How far back the wheel's axle is, counted from the front.
    pub fn axle(self) -> u8 {
        match self {
            Self::FrontLeft | Self::FrontRight | Self::Front => 0,
            Self::MiddleLeft | Self::MiddleRight => 1,
            Self::RearLeft | Self::RearRight | Self::Rear => 2,
            Self::TrailerLeft | Self::TrailerRight => 3,
        }
    }
}
