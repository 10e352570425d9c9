//! The page is built apart, into `web/dist`; when it is built anew, so is what
//! carries it. A build without a page is whole too and says so when it is asked.

use std::path::Path;

fn main() {
    let page = Path::new("../../web/dist");
    println!("cargo::rerun-if-changed={}", page.display());
    if !page.is_dir()
        && let Err(problem) = std::fs::create_dir_all(page)
    {
        println!("cargo::warning=cannot make {}: {problem}", page.display());
    }
}
