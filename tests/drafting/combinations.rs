//! Every possible vehicle is drafted without an error; an impossible one is refused with its reason.

use bleedwright_drafting::{
    Draft, Impossible, MasterKind, Measures, RearAxle, Units, WheelBrake, draft,
};
use bleedwright_network::{Severity, Split, Steering, load};

const BRAKES: [WheelBrake; 3] = [WheelBrake::Disc, WheelBrake::Drum, WheelBrake::DoubleDrum];

/// How many circuits work a wheel of the front and of the rear axle.
fn circuits_of_a_wheel(split: Split) -> [usize; 2] {
    match split {
        Split::HI | Split::LL => [2, 1],
        Split::HH => [2, 2],
        _ => [1, 1],
    }
}

#[test]
fn every_combination() {
    let steerings = [
        None,
        Some(Steering::Left),
        Some(Steering::Right),
        Some(Steering::Centre),
    ];
    let cylinders = [MasterKind::Single, MasterKind::Tandem, MasterKind::Twin];
    let (mut drafted, mut refused) = (0, 0);
    for split in Split::ALL
        .iter()
        .copied()
        .filter(|split| *split != Split::Other)
    {
        for steering in steerings {
            for front in BRAKES {
                for rear in BRAKES {
                    for cylinder in cylinders {
                        for nth in 0..8_u32 {
                            let mut measures = Measures::of_split(split);
                            measures.steering = steering;
                            (measures.front, measures.rear) = (front, rear);
                            measures.cylinder = cylinder;
                            measures.has_anti_lock = nth & 1 == 1;
                            measures.rear_axle =
                                [RearAxle::Rigid, RearAxle::Independent][(nth as usize >> 1) & 1];
                            measures.units = [Units::Millimetres, Units::Inches][nth as usize >> 2];
                            let [at_front, at_rear] = circuits_of_a_wheel(split);
                            let chambers = usize::from(split != Split::Single) + 1;
                            let given = usize::from(cylinder != MasterKind::Single) + 1;
                            let is_one_chamber =
                                |count: usize, brake| count > 1 && brake == WheelBrake::Drum;
                            match draft(&measures) {
                                Ok(Draft { text, .. }) => {
                                    drafted += 1;
                                    assert_eq!(chambers, given, "{measures:?}");
                                    assert!(
                                        !is_one_chamber(at_front, front)
                                            && !is_one_chamber(at_rear, rear)
                                    );
                                    let loaded = load(text.as_bytes());
                                    let is_error = |code: bleedwright_network::Code| {
                                        code.severity() == Severity::Error
                                    };
                                    assert!(
                                        !loaded.findings.iter().any(|it| is_error(it.code)),
                                        "{text}"
                                    );
                                    let network = loaded.sound_network().expect("it has no error");
                                    assert_eq!(network.split(), split, "{text}");
                                }
                                Err(Impossible::Chambers { .. }) => {
                                    refused += 1;
                                    assert_ne!(chambers, given, "{measures:?}");
                                }
                                Err(Impossible::OneChamber { axle, .. }) => {
                                    refused += 1;
                                    let (count, brake) = if axle == "front" {
                                        (at_front, front)
                                    } else {
                                        (at_rear, rear)
                                    };
                                    assert!(is_one_chamber(count, brake), "{measures:?}");
                                }
                                Err(other) => panic!("{other}: {measures:?}"),
                            }
                        }
                    }
                }
            }
        }
    }
    assert!(
        drafted > 500 && refused > 500,
        "{drafted} drafted, {refused} refused"
    );
}
