//! Published values, one file for each source: where it stands, what was
//! printed, how exact that is.

mod astm_d341;
mod cfr_570;
mod fmvss_106;
mod fmvss_116;
mod fmvss_116_limits;
mod iapws_97;
mod openstax_college_physics;
mod sae_j526;
mod tb_9_2320;
mod tm_10_3930;
