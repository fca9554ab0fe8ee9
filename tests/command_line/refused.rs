//! What is refused: exit code 2, nothing printed, and an error that names the option, what was found and what to do.

use super::refused;
use crate::table::rows;

/// A call, and the words of its error. `READING` is `--measured` in one call and `--pumped` in another.
const CALLS: &str = "
// Usage.
 |
bleed layouts/lapwing.ron |
plan |
plan layouts/lapwing.ron --no-such-option |
check layouts/lapwing.ron --format picture |
volumes layouts/lapwing.ron --begin nearest |
plan layouts/lapwing.ron --begin middle |
plan layouts/lapwing.ron --method suction |
plan layouts/lapwing.ron --method gravity --stroke 50% |
plan layouts/lapwing.ron --tank-pressure '1 bar' |
check layouts/lapwing.ron --for fill --residual 5% |
simulate layouts/lapwing.ron --done 'rear left' |
simulate layouts/lapwing.ron --index 2 |
compare layouts/lapwing.ron --orders --done 'rear left' |
plan layouts/lapwing.ron --for fun |
pedal layouts/lapwing.ron layouts/lapwing.ron | unexpected
pedal | <LAYOUT>
pedal layouts/lapwing.ron --travel '62 mm' | --travel
pedal layouts/lapwing.ron --format csv | --format; json
fluid --grade dot4 --format csv | --format
compare layouts/lapwing.ron |
compare layouts/lapwing.ron --with --nonsense |
compare layouts/lapwing.ron --with \"--order 'front left\" |
compare layouts/lapwing.ron --with '--order nobody' |
compare layouts/lapwing.ron layouts/plover.ron --orders |
compare layouts/lapwing.ron layouts/plover.ron --with '--begin nearest' |
compare layouts/lapwing.ron --most-orders 3 | --orders
compare layouts/lapwing.ron --orders --most-orders 0 | --most-orders
compare layouts/lapwing.ron --orders --most-orders many | --most-orders
compare layouts/lapwing.ron --orders --most-orders 1.5 | --most-orders
compare layouts/lapwing.ron --orders --most-orders 100001 | --most-orders
plan layouts/lapwing.ron --method reverse --for renew |
// Nothing is said by an order of no names, nor by a date of blanks.
plan layouts/lapwing.ron --order ',' | --order
plan layouts/lapwing.ron --order '' | --order
plan layouts/lapwing.ron --order ' , ' | --order
plan layouts/lapwing.ron --date ' ' | --date
plan layouts/lapwing.ron --depressurised | BW422; --depressurised
draw layouts/lapwing.ron --depressurised | BW422; --depressurised
simulate layouts/lapwing.ron --depressurised | BW422; --depressurised
simulate layouts/lapwing.ron --laid-up --method pressure | --laid-up means nothing here by the pressure method
// Values out of range; the range allowed is said with the refusal. An equals sign keeps a minus from being read as an option.
plan layouts/lapwing.ron '--residual=0 %' | 0.1 % to 50 %
plan layouts/lapwing.ron '--residual=51 %' | 0.1 % to 50 %
plan layouts/lapwing.ron '--residual=-5 %' | 0.1 % to 50 %
plan layouts/lapwing.ron '--residual=NaN' |
plan layouts/lapwing.ron '--residual=five' |
plan layouts/lapwing.ron '--residual=' |
plan layouts/lapwing.ron '--residual=0.5' | with its sign
plan layouts/lapwing.ron '--residual=5' | with its sign
plan layouts/lapwing.ron '--residual=0.05' | with its sign
plan layouts/lapwing.ron '--stroke=0.6' | with its sign
plan layouts/lapwing.ron '--stroke=60' | with its sign
plan layouts/lapwing.ron '--stroke=1' | with its sign
plan layouts/lapwing.ron '--tank-pressure=0.1 bar' | 0.2 bar to 4 bar
plan layouts/lapwing.ron '--tank-pressure=5 bar' | 0.2 bar to 4 bar
plan layouts/lapwing.ron '--tank-pressure=-1 bar' | 0.2 bar to 4 bar
plan layouts/lapwing.ron '--stroke=0.5 %' | 1 % to 100 %
plan layouts/lapwing.ron '--stroke=101 %' | 1 % to 100 %
plan layouts/lapwing.ron '--stroke=-60 %' | 1 % to 100 %
plan layouts/lapwing.ron '--bottle=19 ml' | 20 ml to 60 l
plan layouts/lapwing.ron '--bottle=61 l' | 20 ml to 60 l
plan layouts/lapwing.ron '--bottle=-1 l' | 20 ml to 60 l
plan layouts/lapwing.ron '--bottle=500' |
plan layouts/lapwing.ron '--bottle=500 mm' |
plan layouts/lapwing.ron '--bottle=inf ml' |
plan layouts/lapwing.ron '--temperature=-41 degC' | -40 degC to 60 degC
plan layouts/lapwing.ron '--temperature=61 degC' | -40 degC to 60 degC
plan layouts/lapwing.ron '--temperature=1e9 degC' | -40 degC to 60 degC
plan layouts/lapwing.ron '--new-fluid=dot9' | dot3, dot4, dot4_low_viscosity, dot5, dot5_1, mineral
plan layouts/lapwing.ron '--new-fluid=DOT6' | dot3, dot4, dot4_low_viscosity, dot5, dot5_1, mineral
plan layouts/lapwing.ron '--new-fluid=' | dot3, dot4, dot4_low_viscosity, dot5, dot5_1, mineral
plan layouts/lapwing.ron '--width=23' |
plan layouts/lapwing.ron '--width=401' |
plan layouts/lapwing.ron '--width=-80' |
// Names that the layout does not have.
plan layouts/lapwing.ron --opened 'rear lift' | BW401; --opened
plan layouts/lapwing.ron --drained 'rear lift' | BW401; --drained
plan layouts/lapwing.ron --clamped 'rear lift' | BW401; --clamped
plan layouts/lapwing.ron --ran-dry 'rear lift' | BW401; --ran-dry
plan layouts/lapwing.ron --circuit-first 'rear lift' | BW401; --circuit-first
plan layouts/lapwing.ron --skip 'rear lift' | BW401; --skip
plan layouts/lapwing.ron --done 'rear lift' | BW401; --done
plan layouts/lapwing.ron --order 'rear lift' | BW401; --order
// Pads open nothing, and a propped pedal wants a joint.
plan layouts/lapwing.ron --opened 'front pads' | BW418
plan layouts/lapwing.ron --replaced discs | BW418
plan layouts/lapwing.ron --propped | BW419
plan layouts/lapwing.ron --opened 'front tee' --plugged 'long rear pipe' | BW419
// Silicone fluid and mineral oil take up no water (common practice, no source): what to do instead is said.
fluid --grade dot5 --moisture '2 %' | --moisture; drops; lowest screw
fluid --grade mineral --moisture '2 %' | --moisture; drops
fluid --grade dot5 --bottle-moisture '0.2 %' | --bottle-moisture; drops
fluid --grade dot4 --bottle-grade dot5 --bottle-moisture '0.2 %' | --bottle-moisture
// Shares without their sign.
fluid --grade dot4 --moisture '2.5' | --moisture; sign
fluid --grade dot4 --moisture '0.025' | --moisture; sign
fluid --grade dot4 --moisture '0.4' | --moisture; sign
fluid --grade dot4 --moisture '2,5' | --moisture; sign
fluid --grade dot4 --moisture 'two' | --moisture; sign
fluid --grade dot4 --bottle-moisture '2.5' | --bottle-moisture; sign
fluid --grade dot4 --bottle-moisture '0.025' | --bottle-moisture; sign
fluid --grade dot4 --bottle-moisture '0.4' | --bottle-moisture; sign
fluid --grade dot4 --bottle-moisture '2,5' | --bottle-moisture; sign
fluid --grade dot4 --bottle-moisture 'two' | --bottle-moisture; sign
fluid --grade dot4 --moisture '2,5 %' | --moisture; 2.5 %
// Readings of a fluid that cannot be.
fluid --moisture '25 %' --grade dot4 | --moisture; 0 to 20 %
fluid --moisture '-1 %' --grade dot4 | --moisture; 0 to 20 %
fluid --moisture 'NaN %' --grade dot4 | --moisture; finite
fluid --moisture '1 % ± 2 %' --grade dot4 | --moisture; tolerance
fluid --boiling '1000 degC' --grade dot4 | --boiling; 90 to 350 degC
fluid --boiling '20 degC' --grade dot4 | --boiling; 90 to 350 degC
fluid --boiling '180' --grade dot4 | --boiling; unit
fluid --boiling '180 bar' --grade dot4 | --boiling; unit
fluid --label-wet '311' --grade dot4 | --label-wet; unit
fluid --label-wet '60 degC' --grade dot4 | --label-wet; 105 to 350 degC
fluid --label-dry '900 degF' --grade dot4 | --label-dry; 105 to 350 degC
fluid --label-wet '311 degF ± 5 degF' --grade dot4 | --label-wet; tolerance
fluid --age '30' --grade dot4 | --age; unit
fluid --age '30 moons' --grade dot4 | --age; months
fluid --age '-2 years' --grade dot4 | --age; months
fluid --age '300 years' --grade dot4 | --age; 0 to 100 years
fluid --opened-for 'soon' --grade dot4 | --opened-for; months
fluid --grade 'dot6' | --grade; dot5_1
fluid --mixed-with 'water' --grade dot4 | --mixed-with; dot5_1
// Options of a fluid that do not fit. Lapwing needs DOT 4, and so does its bottle unless it says otherwise.
fluid | --grade; --layout
fluid --moisture '2 %' | --grade; --layout
fluid --grade dot4 --label-wet '446 degF' --label-dry '311 degF' | --label-wet; exchanged
fluid --grade dot4 --of-the-label --moisture '2 %' | --of-the-label; boiling point
fluid --grade dot4 --of-the-label --label-wet '320 degF' --mixed-with dot3 | --of-the-label
fluid --grade dot4 --of-the-label --label-wet '360 degF' --bottle-grade dot5_1 | --of-the-label
fluid --layout layouts/lapwing.ron --grade dot3 --of-the-label --label-wet '320 degF' | --of-the-label
// Names of a pedal that nothing has.
pedal layouts/lapwing.ron --control mastr | `mastr`; master; did you mean
pedal layouts/lapwing.ron --control '' | master
pedal layouts/turnstone.ron | --control; several pedals or levers
pedal layouts/lapwing.ron --air '1 ml' --air-in tertiary | `tertiary`; primary, secondary
pedal layouts/lapwing.ron --air-in primary | --air
pedal layouts/lapwing.ron --symptom spongy | --symptom; springy; sinking
pedal layouts/lapwing.ron --booster on | --booster; exhausted
// Forces that no foot has.
pedal layouts/lapwing.ron '--force=0 N' | --force; 10 N to 2000 N
pedal layouts/lapwing.ron '--force=-300 N' | --force; 10 N to 2000 N
pedal layouts/lapwing.ron '--force=9.9 N' | --force; 10 N to 2000 N
pedal layouts/lapwing.ron '--force=2001 N' | --force; 10 N to 2000 N
pedal layouts/lapwing.ron '--force=NaN N' | --force; finite
pedal layouts/lapwing.ron '--force=inf N' | --force; finite
pedal layouts/lapwing.ron '--force=300' | --force; no unit
pedal layouts/lapwing.ron '--force=300 mm' | --force; `mm` is not a unit
pedal layouts/lapwing.ron '--force=hard' | --force; is not
pedal layouts/lapwing.ron '--force=' | --force; is not
pedal layouts/lapwing.ron '--force=300 N ± 20 N' | --force; tolerance
// Readings of a pedal that are none.
pedal layouts/lapwing.ron --booster running 'READING=' | READING; colon
pedal layouts/lapwing.ron --booster running 'READING=62 mm' | READING; colon
pedal layouts/lapwing.ron --booster running 'READING=300 N 62 mm' | READING; colon
pedal layouts/lapwing.ron --booster running 'READING=300 N; 62 mm' | READING; colon
pedal layouts/lapwing.ron --booster running 'READING=:' | READING; is not
pedal layouts/lapwing.ron --booster running 'READING=300 N:' | READING; is not
pedal layouts/lapwing.ron --booster running 'READING=: 62 mm' | READING; is not
pedal layouts/lapwing.ron --booster running 'READING=300: 62 mm' | READING; no unit
pedal layouts/lapwing.ron --booster running 'READING=300 N: 62' | READING; no unit
pedal layouts/lapwing.ron --booster running 'READING=62 mm: 300 N' | READING; is not a unit
pedal layouts/lapwing.ron --booster running 'READING=300 N: 62 N' | READING; is not a unit
pedal layouts/lapwing.ron --booster running 'READING=300 N: 62 mm: 3 mm' | READING; is not
pedal layouts/lapwing.ron --booster running 'READING=300 N: 62,5 mm' | READING; write `62.5 mm`
pedal layouts/lapwing.ron --booster running 'READING=300 N: 0 mm' | READING; above 0 mm
pedal layouts/lapwing.ron --booster running 'READING=300 N: -3 mm' | READING; above 0 mm
pedal layouts/lapwing.ron --booster running 'READING=300 N: 401 mm' | READING; 400 mm
pedal layouts/lapwing.ron --booster running 'READING=300 N: NaN mm' | READING; finite
pedal layouts/lapwing.ron --booster running 'READING=300 N: 62 mm ± 63 mm' | READING; tolerance
pedal layouts/lapwing.ron --booster running 'READING=300 N: 62 mm ± -1 mm' | READING; tolerance
pedal layouts/lapwing.ron --booster running 'READING=NaN N: 62 mm' | READING; finite
pedal layouts/lapwing.ron --booster running 'READING=5 N: 62 mm' | READING; 10 N to 2000 N
pedal layouts/lapwing.ron --booster running 'READING=300 N ± 295 N: 62 mm' | READING; 10 N to 2000 N
pedal layouts/lapwing.ron --booster running 'READING=firm: 62 mm' | READING; `light push` or `hard push`
// The same force gives several times the pressure with the booster, so that it is never guessed.
pedal layouts/lapwing.ron READING '300 N: 62 mm' | --booster; running or exhausted
pedal layouts/curlew.ron --booster running | no booster; --booster
// Too little force for a reading; the other readings do not help it.
pedal layouts/lapwing.ron --booster exhausted --measured '12 N: 12 mm' | 12 N; says nothing about air
pedal layouts/lapwing.ron --booster exhausted --measured '300 N: 62 mm' --pumped '12 N: 12 mm' | 12 N
// Sizes that cannot be.
pedal layouts/curlew.ron '--bore=wide' | --bore; is not
pedal layouts/curlew.ron '--bore=0.7' | --bore; no unit
pedal layouts/curlew.ron '--bore=0 mm' | --bore; 5 mm to 80 mm
pedal layouts/curlew.ron '--bore=-20 mm' | --bore; 5 mm to 80 mm
pedal layouts/curlew.ron '--bore=200 mm' | --bore; 5 mm to 80 mm
pedal layouts/curlew.ron '--bore=NaN mm' | --bore; finite
pedal layouts/curlew.ron '--bore=0.7 in +' | --bore; is not
pedal layouts/curlew.ron '--bore=0.7 in + 3/4 in + 1 in' | --bore; one bore, or two
pedal layouts/curlew.ron '--bore=20 bar' | --bore; is not a unit
pedal layouts/curlew.ron '--ratio=0' | --ratio
pedal layouts/curlew.ron '--ratio=-5' | --ratio
pedal layouts/curlew.ron '--ratio=16' | --ratio
pedal layouts/curlew.ron '--ratio=five' | --ratio
pedal layouts/curlew.ron '--ratio=NaN' | --ratio
pedal layouts/curlew.ron '--ratio=5 mm' | --ratio
pedal layouts/curlew.ron '--share=5' | --share
pedal layouts/curlew.ron '--share=19 %' | --share
pedal layouts/curlew.ron '--share=81 %' | --share
pedal layouts/curlew.ron '--share=half' | --share
pedal layouts/curlew.ron '--share=NaN %' | --share
pedal layouts/lapwing.ron --bore '0.7 in + 3/4 in' | --bore; one cylinder
pedal layouts/lapwing.ron --share '50 %' | --share; balance bar
// Air that cannot be.
pedal layouts/lapwing.ron '--air=0 ml' | --air
pedal layouts/lapwing.ron '--air=-1 ml' | --air
pedal layouts/lapwing.ron '--air=201 ml' | --air
pedal layouts/lapwing.ron '--air=NaN ml' | --air
pedal layouts/lapwing.ron '--air=1' | --air
pedal layouts/lapwing.ron '--air=1 mm' | --air
pedal layouts/lapwing.ron --air '1 ml' READING '300 N: 62 mm' | --air; READING
";

#[test]
fn calls_are_refused_with_their_reason() {
    for [call, words] in rows(CALLS) {
        for reading in ["--measured", "--pumped"] {
            let words = words.replace("READING", reading);
            let words: Vec<&str> = words.split("; ").collect();
            refused(&call.replace("READING", reading), &words);
            if !call.contains("READING") {
                break;
            }
        }
    }
}
