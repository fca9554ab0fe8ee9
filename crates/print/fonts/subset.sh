#!/usr/bin/env bash
# Makes the font files beside this script from those of Debian's package
# fonts-noto-core 20201225. Needs pyftsubset of fonttools. What is not listed
# is printed as its code point: letters that join or run from right to left,
# and everything that cannot be seen.
set -euo pipefail
cd "$(dirname "$0")"
from=${1:-/usr/share/fonts/truetype/noto}

text="20-7E,A0-AC,AE-17F,180-24F,250-2AF,2B0-2FF,300-34E,350-36F,370-3FF,400-52F,1E00-1EFF,1F00-1FFF"
text+=",2010-2027,202F-205E,2070-209F,20A0-20BF,2100-214F,2150-218F,2190-21FF,2200-22FF,2300-23FF"
text+=",2500-25FF,2C60-2C7F,A720-A7FF,FFFD,FB00-FB06"
signs="2190-21FF,2200-22FF,2300-2307,2310-231B,25A0-25FF,2610-2613,2713-2718,27F5-27FF,2A7D-2A8C"

subset() {
    pyftsubset "$from/$1.ttf" --output-file="$1.ttf" --unicodes="$2" --no-hinting \
        --layout-features='' --name-IDs='*' --notdef-outline --drop-tables+=GSUB,GPOS,GDEF,DSIG,MATH
}

subset NotoSans-Regular "$text"
subset NotoSans-Bold "$text"
subset NotoSansMath-Regular "$signs"
