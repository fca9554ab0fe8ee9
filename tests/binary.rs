//! The program itself, built once for all tests that run it.

use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;

/// A command that runs the freshly built `bleedwright` from the repository's
/// root, without colour.
pub(crate) fn bleedwright() -> Command {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    let path = BUILT.get_or_init(|| {
        // With the whole workspace its dependencies have the features that the
        // tests' own have, so that none is built a second time.
        escargot::CargoBuild::new()
            .arg("--workspace")
            .bin("bleedwright")
            .manifest_path(root().join("Cargo.toml"))
            .run()
            .expect("the program builds, since the tests were built from the same tree")
            .path()
            .to_owned()
    });
    let mut command = Command::new(path);
    command
        .current_dir(root())
        .env_remove("NO_COLOR")
        .env_remove("CLICOLOR_FORCE");
    command
}

/// The repository's root.
pub(crate) fn root() -> PathBuf {
    let tests = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    tests
        .parent()
        .expect("the folder of tests stands in the repository")
        .to_owned()
}

/// A folder of one test's own, empty, below the folder for temporary files.
pub(crate) fn empty_folder(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    if folder.exists() {
        std::fs::remove_dir_all(&folder).expect("the folder of the last run can go");
    }
    std::fs::create_dir_all(&folder).expect("the folder for temporary files can be written to");
    folder
}
