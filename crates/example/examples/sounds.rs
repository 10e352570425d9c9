//! Writes the sounds of the example film into a folder, to be listened to and
//! measured: raw 32-bit floats, one channel, 48,000 a second.
//!
//! `cargo run -p onestrand-example --example sounds -- FOLDER`

use std::error::Error;
use std::path::PathBuf;

use onestrand_example::sounds;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).map(PathBuf::from);
    let folder = folder.ok_or("which folder shall they go to?")?;
    std::fs::create_dir_all(&folder)?;
    for sound in sounds() {
        let samples = sound.samples();
        let bytes: Vec<u8> = samples
            .iter()
            .flat_map(|sample| sample.to_le_bytes())
            .collect();
        std::fs::write(folder.join(sound.name).with_extension("f32"), bytes)?;
    }
    Ok(())
}
