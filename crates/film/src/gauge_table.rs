//! The table of gauges. Data only; each row says where its figures come from.
//!
//! "From memory" marks figures of general knowledge that nobody has yet read
//! in the standard itself: do not quote them as cited facts.

use crate::gauge::{Aperture, Gauge, GaugeSpec, HolePlace, StripGeometry};
use crate::sound::{SoundLead, SoundTrack, Sureness};

const fn lead(
    track: SoundTrack,
    frames: i32,
    sureness: Sureness,
    source: &'static str,
) -> SoundLead {
    SoundLead {
        track,
        frames,
        sureness,
        source,
    }
}

use SoundTrack::{Magnetic, Optical};
use Sureness::{Found, Memory, Suggestion};

/// Thickness of triacetate reversal stock: 0.14 to 0.15 mm in makers' data
/// sheets, from memory; a value to be measured on one's own film.
const TRIACETATE_UM: Option<u32> = Some(145);

pub(crate) static TABLE: [GaugeSpec; 5] = [
    GaugeSpec {
        gauge: Gauge::Regular8,
        code: "regular8",
        name: "Regular 8",
        // 80 frames a foot: trade figure.
        frames_per_foot: 80,
        pitch_um: 3_810,
        pitch_source: "ISO pitch series",
        camera: Aperture {
            width_um: 4_800,
            height_um: 3_510,
            source: "Wheeler, Principles of Cinematography, fig. 126",
        },
        shown: Aperture {
            width_um: 4_370,
            height_um: 3_280,
            source: "0.172 by 0.129 in, from memory; rounded value 4.3 by 3.3 in a collector's table",
        },
        strip: StripGeometry {
            width_um: 7_975,
            hole_um: Some((1_830, 1_270)),
            edge_um: Some(910),
            radius_um: Some(250),
            // Drawn from the look of the film, from memory: not a cited fact.
            picture_left_um: 2_745,
            place: HolePlace::EdgeOnFrameLine,
            source: "ANSI PH22.17 and ISO 486 families, from memory",
        },
        sound: &[lead(Magnetic, 56, Found, "collectors' summary")],
        load: Some((4_000, "25 ft run twice")),
        hub_um: Some(32_000),
        thickness_um: TRIACETATE_UM,
    },
    GaugeSpec {
        gauge: Gauge::Super8,
        code: "super8",
        name: "Super 8",
        // 72 frames a foot: trade figure; the pitch gives 71.989 (0.016 % less).
        frames_per_foot: 72,
        pitch_um: 4_234,
        pitch_source: "SMPTE 149-2004",
        camera: Aperture {
            width_um: 5_790,
            height_um: 4_010,
            source: "common figure of reference works; 6.22 wide, quoted for SMPTE 157, is an outer limit",
        },
        shown: Aperture {
            width_um: 5_310,
            height_um: 4_010,
            source: "quoted for SMPTE 154",
        },
        strip: StripGeometry {
            width_um: 7_976,
            hole_um: Some((914, 1_143)),
            edge_um: Some(510),
            radius_um: Some(130),
            // Drawn from the look of the film, from memory: not a cited fact.
            picture_left_um: 1_460,
            place: HolePlace::BesidePicture,
            source: "SMPTE 149-2004, dimensions A, C, D, E",
        },
        sound: &[
            lead(
                Magnetic,
                18,
                Found,
                "collectors' summary; SMPTE/ANSI sheets",
            ),
            lead(Optical, 22, Memory, "ANSI PH22.182, from memory"),
        ],
        load: Some((3_600, "50 ft cartridge")),
        hub_um: Some(32_000),
        thickness_um: TRIACETATE_UM,
    },
    GaugeSpec {
        gauge: Gauge::NineFive,
        code: "9.5",
        name: "9.5 mm",
        // Counted at 40 a foot by custom; pitch 7.54 mm gives 40.42.
        frames_per_foot: 40,
        pitch_um: 7_540,
        pitch_source: "trade figure, from memory",
        camera: Aperture {
            width_um: 8_500,
            height_um: 6_500,
            source: "Wheeler, Principles of Cinematography, fig. 126",
        },
        shown: Aperture {
            width_um: 8_200,
            height_um: 6_200,
            source: "from memory",
        },
        strip: StripGeometry {
            width_um: 9_500,
            hole_um: None,
            edge_um: None,
            radius_um: None,
            // Drawn from the look of the film, from memory: not a cited fact.
            picture_left_um: 500,
            place: HolePlace::CentreOnFrameLine,
            source: "hole not known: measure one",
        },
        sound: &[
            lead(
                Magnetic,
                28,
                Suggestion,
                "trade practice, from memory, low: ask the machine",
            ),
            lead(
                Optical,
                26,
                Suggestion,
                "trade practice, from memory: ask the machine",
            ),
        ],
        load: None,
        hub_um: None,
        thickness_um: None,
    },
    GaugeSpec {
        gauge: Gauge::Sixteen,
        code: "16",
        name: "16 mm",
        // 40 frames a foot; the pitch is 0.3000 in.
        frames_per_foot: 40,
        pitch_um: 7_620,
        pitch_source: "American Standard for 16 mm silent film, 1947, dimension B",
        camera: Aperture {
            width_um: 10_260,
            height_um: 7_490,
            source: "0.404 by 0.295 in, SMPTE 7, from memory; a glossary rounds to 10.3 by 7.5",
        },
        shown: Aperture {
            width_um: 9_650,
            height_um: 7_210,
            source: "0.380 by 0.284 in, SMPTE 233 and ISO 26, from memory",
        },
        strip: StripGeometry {
            width_um: 15_950,
            hole_um: Some((1_830, 1_270)),
            edge_um: Some(910),
            radius_um: Some(250),
            // Drawn from the look of the film, from memory: not a cited fact.
            picture_left_um: 2_845,
            place: HolePlace::EdgeOnFrameLine,
            source: "American Standard, 1947; width SMPTE 101-2003",
        },
        sound: &[
            lead(Magnetic, 28, Memory, "SMPTE 112 and ISO 490, from memory"),
            lead(Optical, 26, Found, "SMPTE 41, clause 4"),
        ],
        load: Some((4_000, "100 ft daylight spool")),
        hub_um: Some(50_800),
        thickness_um: TRIACETATE_UM,
    },
    GaugeSpec {
        gauge: Gauge::ThirtyFive,
        code: "35",
        name: "35 mm",
        // 16 frames a foot.
        frames_per_foot: 16,
        pitch_um: 19_000,
        pitch_source: "four perforations of 4.750 mm, from memory",
        camera: Aperture {
            width_um: 22_050,
            height_um: 16_030,
            source: "0.868 by 0.631 in, SMPTE 59, from memory",
        },
        shown: Aperture {
            width_um: 20_960,
            height_um: 15_240,
            source: "0.825 by 0.600 in, encyclopedia extract",
        },
        strip: StripGeometry {
            width_um: 34_975,
            hole_um: None,
            edge_um: None,
            radius_um: None,
            // Drawn from the look of the film, from memory: not a cited fact.
            picture_left_um: 6_500,
            place: HolePlace::FourBothEdges,
            source: "SMPTE 139 and ISO 491, from memory",
        },
        sound: &[
            lead(
                Optical,
                20,
                Found,
                "Academy leader: sound start 20 frames from picture start",
            ),
            lead(
                Optical,
                21,
                Memory,
                "theatre threading, SMPTE 40, from memory",
            ),
            lead(
                Magnetic,
                -28,
                Memory,
                "four-track, SMPTE 137 family, from memory",
            ),
        ],
        load: Some((16_000, "1000 ft roll")),
        hub_um: None,
        thickness_um: None,
    },
];
