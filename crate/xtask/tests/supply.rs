//! What others wrote and this is built of: each of it under a licence that is allowed, from the one registry, with its checksum, and none
//! that is banned. `deny.toml` at the root says what of Rust is; of npm this file does. Nothing is asked of a network.

#![expect(clippy::expect_used, clippy::panic, reason = "a test that cannot read has failed")]

use semver::Version;
use serde::Deserialize;
use spdx::{Expression, LicenseItem, Licensee, ParseMode};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The one registry that crates come from.
const REGISTRY: &str = "crates.io-index";
/// Lock files of Rust.
const LOCKS: [&str; 2] = ["Cargo.lock", "tests/fuzz/Cargo.lock"];

/// Licences of what the tests take from npm: none of it is given away.
const OF_NPM: [&str; 10] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BlueOak-1.0.0",
    "CC-BY-SA-4.0",
    "ISC",
    "MIT",
    "MPL-2.0",
    "WTFPL",
];
/// What the lock file says of no licence, with the one that comes with it.
const SAID_ELSEWHERE: [(&str, &str); 3] = [("os-shim", "MIT"), ("rulr", "MIT"), ("rx-lite", "Apache-2.0")];
/// What would run a script as it is installed; `cargo xtask test` installs without any.
const WITH_SCRIPTS: [&str; 2] = ["rs-module-lexer", "spawn-sync"];

#[derive(Deserialize)]
struct Rules {
    licenses: Licences,
    bans: Bans,
}

#[derive(Deserialize)]
struct Licences {
    allow: Vec<String>,
    exceptions: Vec<Exception>,
}

#[derive(Deserialize)]
struct Exception {
    #[serde(rename = "crate")]
    name: String,
    allow: Vec<String>,
}

#[derive(Deserialize)]
struct Bans {
    deny: Vec<String>,
    skip: Vec<Skip>,
}

/// One that may be there in another version besides: `NAME@VERSION`, as far as that says.
#[derive(Deserialize)]
struct Skip {
    #[serde(rename = "crate")]
    spec: String,
}

#[derive(Deserialize)]
struct Lock {
    package: Vec<Locked>,
}

#[derive(Deserialize)]
struct Locked {
    name: String,
    version: String,
    source: Option<String>,
    checksum: Option<String>,
    #[serde(default)]
    dependencies: Vec<String>,
}

#[derive(Deserialize)]
struct Metadata {
    packages: Vec<Package>,
}

#[derive(Deserialize)]
struct Package {
    name: String,
    license: Option<String>,
    source: Option<String>,
}

#[derive(Deserialize)]
struct NpmLock {
    #[serde(rename = "lockfileVersion")]
    version: u32,
    packages: BTreeMap<String, NpmPackage>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct NpmPackage {
    version: Option<String>,
    license: Option<String>,
    integrity: Option<String>,
    resolved: Option<String>,
    #[serde(default)]
    has_install_script: bool,
    #[serde(default)]
    dev_dependencies: BTreeMap<String, String>,
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn text(file: &str) -> String {
    fs::read_to_string(root().join(file)).unwrap_or_else(|why| panic!("{file}: {why}"))
}

fn rules() -> Rules {
    toml::from_str(&text("deny.toml")).expect("deny.toml has these tables")
}

fn lock(file: &str) -> Lock {
    toml::from_str(&text(file)).unwrap_or_else(|why| panic!("{file}: {why}"))
}

/// What cargo knows of everything that `manifest` needs: for every machine, where all of that is on this one, else for this one.
/// That it is there at all shows that the lock file is in step with the manifests.
fn metadata(manifest: &str) -> Result<Metadata, String> {
    let asked = |more: &[&str]| {
        let output = Command::new(env!("CARGO"))
            .args(["metadata", "--format-version", "1", "--locked", "--offline", "--manifest-path", manifest])
            .args(more)
            .current_dir(root())
            .output()
            .expect("cargo runs");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        if output.status.success() { Ok(output.stdout) } else { Err(said) }
    };
    let read = asked(&[]).or_else(|_| asked(&["--filter-platform", &host()]))?;
    Ok(serde_json::from_slice(&read).expect("cargo writes JSON"))
}

/// What machine this is, as the compiler calls it.
fn host() -> String {
    let output = Command::new("rustc").args(["--version", "--verbose"]).output().expect("rustc runs");
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    said.lines().find_map(|line| line.strip_prefix("host: ")).expect("it says its host").to_owned()
}

/// Licences as they are written.
fn licensees(allowed: &[impl AsRef<str>]) -> Vec<Licensee> {
    let read = |said: &str| Licensee::parse(said).unwrap_or_else(|why| panic!("{said}: {why}"));
    allowed.iter().map(|said| read(said.as_ref())).collect()
}

/// Whether an expression is met by what is allowed; marks what of that it takes.
fn is_met(expression: &str, allowed: &[Licensee], used: &mut BTreeSet<String>) -> bool {
    let read = Expression::parse_mode(expression, ParseMode::LAX);
    let read = read.unwrap_or_else(|why| panic!("{expression}: {why}"));
    read.evaluate(|wanted| {
        let met = allowed.iter().find(|licensee| licensee.satisfies(wanted));
        used.extend(met.map(|licensee| match &licensee.clone().into_req().license {
            LicenseItem::Spdx { id, .. } => id.name.to_owned(),
            LicenseItem::Other { .. } => String::new(),
        }));
        met.is_some()
    })
}

#[test]
fn every_crate_is_under_a_licence_that_is_allowed() {
    let Licences { allow, exceptions } = rules().licenses;
    let allowed = licensees(&allow);
    let mut used = BTreeSet::new();
    let mut held = BTreeSet::new();
    for manifest in ["Cargo.toml", "tests/fuzz/Cargo.toml"] {
        let packages = match metadata(manifest) {
            Ok(read) => read.packages,
            // Crates that fuzzers alone need are not on a machine that never ran one.
            Err(why) if manifest != "Cargo.toml" && why.contains("--offline was specified") => {
                println!("what only fuzzers need is not on this machine: its licences are not looked at");
                continue;
            }
            Err(why) => panic!("{manifest}: {why}"),
        };
        for package in packages.iter().filter(|package| package.source.is_some()) {
            let name = &package.name;
            let said = package.license.as_deref().unwrap_or_else(|| panic!("{name} states no licence"));
            let own = exceptions.iter().find(|exception| exception.name == *name);
            let own = own.map(|exception| licensees(&exception.allow)).unwrap_or_default();
            let allowed = [allowed.clone(), own].concat();
            assert!(
                is_met(said, &allowed, &mut used),
                "{name} is under {said}, which deny.toml does not allow"
            );
            held.insert(name.clone());
        }
    }
    assert!(held.len() > 100, "{} crates", held.len());
    for each in &allow {
        let id = each.split(' ').next().unwrap_or_default();
        assert!(used.contains(id), "deny.toml allows {each}, which nothing is under");
    }
    println!("{} crates of others, each under a licence that is allowed", held.len());
}

#[test]
fn every_crate_is_of_the_one_registry_with_its_checksum_and_none_is_banned() {
    let Bans { deny, skip } = rules().bans;
    let mut skipped = BTreeSet::new();
    for file in LOCKS {
        let packages = lock(file).package;
        let mut series: BTreeMap<&str, BTreeSet<Version>> = BTreeMap::new();
        for Locked { name, version, source, checksum, .. } in &packages {
            assert!(!deny.contains(name), "{file}: {name} is banned");
            let Some(source) = source else {
                assert!(name.starts_with("outlean") || name == "xtask", "{file}: {name} is of no registry");
                continue;
            };
            let of_registry = source.starts_with("registry+") && source.ends_with(&format!("/{REGISTRY}"));
            assert!(of_registry, "{file}: {name} is from {source}");
            let sum = checksum.as_deref().unwrap_or_default();
            let whole = sum.len() == 64 && sum.bytes().all(|digit| digit.is_ascii_hexdigit());
            assert!(whole, "{file}: {name} has no checksum");
            let version =
                Version::parse(version).unwrap_or_else(|why| panic!("{file}: {name} {version}: {why}"));
            series.entry(name).or_default().insert(version);
        }
        for (name, versions) in series.into_iter().filter(|(_, versions)| versions.len() > 1) {
            // All but the newest must be listed.
            for version in versions.iter().rev().skip(1) {
                let spec = skip.iter().find(|skip| {
                    let (of, from) = skip.spec.split_once('@').unwrap_or((&skip.spec, ""));
                    of == name && format!("{version}.").starts_with(&format!("{from}."))
                });
                let spec =
                    spec.unwrap_or_else(|| panic!("{file}: {name} {version} is there besides {versions:?}"));
                skipped.insert(spec.spec.clone());
            }
        }
    }
    for Skip { spec } in &skip {
        assert!(skipped.contains(spec), "deny.toml skips {spec}, which is not there twice");
    }
}

/// Cargo itself says whether the workspace's lock file is in step; that of the fuzzers, whose crates need not be there, is read.
#[test]
fn lock_files_are_in_step_with_the_manifests() {
    metadata("Cargo.toml").unwrap_or_else(|why| panic!("{why}"));
    let [all, fuzz] = LOCKS.map(lock);
    let named = |locked: &Locked| -> BTreeSet<String> {
        locked.dependencies.iter().filter_map(|said| said.split(' ').next().map(str::to_owned)).collect()
    };
    for ours in fuzz.package.iter().filter(|locked| locked.source.is_none()) {
        if ours.name == "outlean-fuzz" {
            let manifest: toml::Table = toml::from_str(&text("tests/fuzz/Cargo.toml")).expect("it is TOML");
            let wanted = manifest["dependencies"].as_table().expect("a table").keys().cloned().collect();
            assert_eq!(named(ours), wanted, "tests/fuzz/Cargo.lock is not in step with its manifest");
            continue;
        }
        let known = all.package.iter().find(|locked| locked.name == ours.name);
        let known = named(known.unwrap_or_else(|| panic!("there is no crate {} any more", ours.name)));
        let gone: Vec<String> = named(ours).difference(&known).cloned().collect();
        assert!(gone.is_empty(), "tests/fuzz/Cargo.lock is not in step: {} needs no {gone:?}", ours.name);
    }
}

#[test]
fn every_package_of_npm_is_pinned_and_under_a_licence_that_is_allowed() {
    let lock: NpmLock = serde_json::from_str(&text("tests/package-lock.json")).expect("it is a lock file");
    assert_eq!(lock.version, 3);
    let wanted: serde_json::Value = serde_json::from_str(&text("tests/package.json")).expect("JSON");
    let wanted: BTreeMap<String, String> =
        serde_json::from_value(wanted["devDependencies"].clone()).expect("packages by name");
    assert_eq!(lock.packages[""].dev_dependencies, wanted, "package-lock.json is not in step");
    let allowed = licensees(&OF_NPM);
    let (mut used, mut scripts, mut elsewhere) = (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
    for (place, package) in lock.packages.iter().filter(|(place, _)| !place.is_empty()) {
        let name = place.rsplit("node_modules/").next().unwrap_or_default();
        assert!(package.version.is_some(), "{name} has no version");
        assert_eq!(package.resolved, None, "{name} names where it was fetched from");
        let sum = package.integrity.as_deref().unwrap_or_default();
        assert!(sum.starts_with("sha512-") && sum.len() == 95, "{name} has no SHA-512");
        if package.has_install_script {
            assert!(WITH_SCRIPTS.contains(&name), "{name} runs a script as it is installed");
            scripts.insert(name);
        }
        let said = package.license.clone().unwrap_or_else(|| {
            let known = SAID_ELSEWHERE.iter().find(|(known, _)| *known == name);
            elsewhere.insert(name.to_owned());
            known.unwrap_or_else(|| panic!("{name} states no licence")).1.to_owned()
        });
        // As one of its packages writes it.
        let said = said.replace("CC BY-SA 4.0", "CC-BY-SA-4.0");
        assert!(is_met(&said, &allowed, &mut used), "{name} is under {said}");
    }
    assert_eq!(used.len(), OF_NPM.len(), "nothing is under some of what is allowed: {used:?}");
    assert_eq!(scripts.len(), WITH_SCRIPTS.len());
    assert_eq!(elsewhere.len(), SAID_ELSEWHERE.len());
    // What is taken from PyPI is of one version each.
    let python = text("tests/record-store/requirements.txt");
    assert!(python.lines().all(|line| line.contains("==")), "{python}");
    println!("{} packages of npm", lock.packages.len() - 1);
}
