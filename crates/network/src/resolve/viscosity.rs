//! Measured viscosity: two points, thinner where it is warmer.

use super::range::{FLUID_TEMPERATURE, VISCOSITY};
use super::reader::Reader;
use crate::code::Code;
use crate::file::ViscosityFile;
use crate::finding::Finding;
use crate::layout::ViscosityPoint;
use crate::place::Walk;

impl Reader {
    pub(crate) fn viscosity(&mut self, files: &[ViscosityFile]) -> Option<[ViscosityPoint; 2]> {
        if files.is_empty() {
            return None;
        }
        let list = Walk::ROOT.field("viscosity");
        let points: Vec<ViscosityPoint> = list
            .items(files)
            .filter_map(|(walk, file)| {
                let at = self.read(&file.at, &walk.field("at"), &FLUID_TEMPERATURE);
                let value = self.read(&file.value, &walk.field("value"), &VISCOSITY);
                Some(ViscosityPoint {
                    temperature: at?.nominal,
                    viscosity: value?,
                })
            })
            .collect();
        if points.len() < files.len() {
            return None;
        }
        let fit = <[ViscosityPoint; 2]>::try_from(points)
            .ok()
            .map(|mut points| {
                points.sort_by(|a, b| a.temperature.value.total_cmp(&b.temperature.value));
                points
            });
        let found = match fit {
            None => format!("{} points of viscosity", files.len()),
            Some([cold, warm]) if cold.temperature.value >= warm.temperature.value => {
                "two points of viscosity at one temperature".to_owned()
            }
            Some([cold, warm])
                if cold.viscosity.low <= warm.viscosity.low
                    || cold.viscosity.nominal <= warm.viscosity.nominal
                    || cold.viscosity.high <= warm.viscosity.high =>
            {
                "a fluid that is no thinner where it is warmer".to_owned()
            }
            Some(points) => return Some(points),
        };
        self.findings.push(
            Finding::new(
                Code::ViscosityPoints,
                list.place(),
                found,
                "give two measured points, or leave them out: then the usual ones of the grade \
                 are taken",
            )
            .allowing("two points, the viscosity falling from the colder to the warmer one"),
        );
        None
    }
}
