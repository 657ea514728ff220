#![doc = include_str!("../README.md")]

mod diagnostics;
mod solve;
mod words;

use clap::{Parser, Subcommand};
use std::process::ExitCode;

/// A leaning two-legged timber frame, worked out from files.
#[derive(Parser)]
#[command(name = "outlean", version)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Solve a rig file: what every part carries, and at which leans all of it holds.
    Solve(solve::Args),
}

fn main() -> ExitCode {
    match Cli::parse().command {
        Command::Solve(args) => solve::run(&args),
    }
}
