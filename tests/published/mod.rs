//! Published values, one file for each source: where it stands, what was
//! printed, how exact that is.

mod astm_d341;
mod boyle;
mod bretherton_1961;
mod cfr_570;
mod cfr_571_135;
mod common_practice;
mod fmvss_106;
mod fmvss_116;
mod fmvss_116_limits;
mod iapws_97;
mod lame;
mod levenspiel;
mod merritt;
mod openstax_college_physics;
mod sae_j526;
mod shah_1978;
mod tb_9_2320;
mod tm_10_3930;
mod viana_2003;
mod vocational_hydraulics;
mod wet_brake_fluid;
mod white;
