//! Serving a built folder on this machine, with the policy that the pages are written for.
//!
//! One thread a connection, one answer a connection: enough for one reader, and no request can wait behind an idle
//! connection, as it can with a pool of threads that keep connections alive.

use crate::packed::{self, Packing};
use crate::policy::POLICY;
use crate::version::version;
use crate::{program, watch};
use std::fs;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;
use std::time::Duration;

/// How many ports after the one asked for are tried when it is taken.
const TRIES: u16 = 20;
/// How long a connection may say nothing, and how many bytes its request may have.
const PATIENCE: Duration = Duration::from_secs(10);
const LONGEST: u64 = 16 * 1024;

/// Serves `folder` on 127.0.0.1 at `port` or the next free one (0 is any), calls `ready` with the address and
/// goes on until the process ends. With `builds` each page asks for that number and loads itself anew when it is another.
///
/// # Errors
///
/// When no port is free, with the system's reason.
pub fn serve(
    folder: &Path,
    port: u16,
    builds: Option<Arc<AtomicU64>>,
    ready: impl FnOnce(&str),
) -> Result<(), String> {
    let folder = folder
        .canonicalize()
        .map_err(|why| format!("the folder {} cannot be read: {why}", folder.display()))?;
    let listener = listen(port)?;
    let address = listener.local_addr().map_err(|why| why.to_string())?;
    ready(&format!("http://{address}/"));
    for connection in listener.incoming().flatten() {
        let (folder, builds) = (folder.clone(), builds.clone());
        // A browser that went away is no error of ours.
        thread::spawn(move || drop(answer(&connection, &folder, builds.as_deref())));
    }
    Ok(())
}

fn listen(port: u16) -> Result<TcpListener, String> {
    let mut why = String::new();
    let last = port.saturating_add(TRIES);
    for port in port..=last {
        match TcpListener::bind(("127.0.0.1", port)) {
            Ok(listener) => return Ok(listener),
            Err(reason) => why = reason.to_string(),
        }
    }
    Err(format!("no free port from {port} to {last}: {why}"))
}

/// Reads one request and answers it.
fn answer(connection: &TcpStream, folder: &Path, builds: Option<&AtomicU64>) -> io::Result<()> {
    connection.set_read_timeout(Some(PATIENCE))?;
    let mut request = BufReader::new(connection.take(LONGEST));
    let mut first = String::new();
    request.read_line(&mut first)?;
    let (mut accepted, mut known) = (String::new(), String::new());
    let mut header = String::new();
    while request.read_line(&mut header)? > 2 {
        match header.split_once(':') {
            Some((name, value)) if name.eq_ignore_ascii_case("accept-encoding") => {
                accepted = value.to_owned()
            }
            Some((name, value)) if name.eq_ignore_ascii_case("if-none-match") => {
                known = value.trim().to_owned()
            }
            _ => {}
        }
        header.clear();
    }
    let mut words = first.split_whitespace();
    let (method, target) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
    if !matches!(method, "GET" | "HEAD") {
        return send(connection, "405 Method Not Allowed", PLAIN, b"only GET and HEAD are answered", true);
    }
    let whole = method == "GET";
    if let Some(builds) = builds {
        match target {
            watch::NUMBER => {
                let number = builds.load(Ordering::Relaxed).to_string();
                return send(connection, "200 OK", PLAIN, number.as_bytes(), whole);
            }
            watch::SCRIPT => {
                let kind = content_type(Path::new(watch::SCRIPT));
                let headers = format!("{kind}\r\nCache-Control: {ASKED_AGAIN}");
                return send(connection, "200 OK", &headers, watch::ASKS.as_bytes(), whole);
            }
            _ => {}
        }
    }
    let Some((mut bytes, file)) =
        file_of(target, folder).and_then(|file| Some((fs::read(&file).ok()?, file)))
    else {
        return send(connection, "404 Not Found", PLAIN, b"there is no such page", whole);
    };
    let kind = content_type(&file);
    let watches = builds.is_some() && kind.starts_with("text/html");
    if watches {
        bytes.extend_from_slice(watch::LOADS.as_bytes());
    }
    // Weak: it is of what the file says, however that is packed.
    let tag = format!("W/\"{}\"", version(&bytes));
    let first = file.strip_prefix(folder).ok().and_then(|file| file.iter().next()?.to_str());
    let kept = if first.is_some_and(program::is) { FOR_EVER } else { ASKED_AGAIN };
    let headers = format!("{kind}\r\nCache-Control: {kept}\r\nETag: {tag}");
    if known == tag {
        return send(connection, "304 Not Modified", &headers, b"", false);
    }
    let packed = Packing::ALL
        .into_iter()
        .filter(|packing| !watches && accepts(&accepted, packing.coding()))
        .find_map(|packing| Some((packing.coding(), packed::of(&file, packing)?)));
    match packed {
        Some((coding, packed)) => {
            send(connection, "200 OK", &format!("{headers}\r\nContent-Encoding: {coding}"), &packed, whole)
        }
        None => send(connection, "200 OK", &headers, &bytes, whole),
    }
}

/// Whether a list of codings, as a request has it, has this one.
fn accepts(list: &str, coding: &str) -> bool {
    list.split(',').any(|each| {
        let (name, weight) = each.split_once(';').unwrap_or((each, ""));
        let never = matches!(weight.replace(' ', "").as_str(), "q=0" | "q=0.0" | "q=0.00" | "q=0.000");
        name.trim().eq_ignore_ascii_case(coding) && !never
    })
}

/// How long a browser keeps what pages load: a year, and by RFC 8246 without asking again even when a page is loaded anew.
const FOR_EVER: &str = "public, max-age=31536000, immutable";
/// And all else: as long as it is the same, which it asks.
const ASKED_AGAIN: &str = "no-cache";
/// The headers of what is no file of the course.
const PLAIN: &str = "text/plain\r\nCache-Control: no-cache";

/// `headers` begin with the type of what is sent.
fn send(mut connection: &TcpStream, status: &str, headers: &str, body: &[u8], whole: bool) -> io::Result<()> {
    // A length of nothing would be that of what is not sent.
    let length =
        if status.starts_with("304") { String::new() } else { format!("Content-Length: {}\r\n", body.len()) };
    write!(
        connection,
        "HTTP/1.1 {status}\r\nContent-Type: {headers}\r\n{length}Connection: close\r\n\
         Vary: Accept-Encoding\r\n\
         Content-Security-Policy: {POLICY}\r\nX-Content-Type-Options: nosniff\r\n\
         Referrer-Policy: no-referrer\r\n\r\n"
    )?;
    if whole {
        connection.write_all(body)?;
    }
    connection.flush()
}

/// The file under `folder` that a request's address means; `None` for one outside it or absent. A folder's
/// address without its last slash is not a page: relative links would go astray.
fn file_of(url: &str, folder: &Path) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next().unwrap_or_default();
    let relative = PathBuf::from(path.trim_start_matches('/'));
    // Names in the built folder are plain: nothing to decode, nowhere to climb.
    if relative.components().any(|part| !matches!(part, Component::Normal(_))) {
        return None;
    }
    let mut file = folder.join(&relative);
    if path.ends_with('/') || path.is_empty() {
        file.push("index.html");
    }
    let file = file.canonicalize().ok()?;
    (file.starts_with(folder) && file.is_file()).then_some(file)
}

fn content_type(path: &Path) -> &'static str {
    match path.extension().and_then(|ending| ending.to_str()).unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "json" => "application/json",
        "wasm" => "application/wasm",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "woff2" => "font/woff2",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_files_inside_the_folder_are_served() {
        let folder = std::env::temp_dir().join(format!("outlean-serve-{}", std::process::id()));
        fs::create_dir_all(folder.join("lesson")).unwrap();
        fs::write(folder.join("lesson/index.html"), "a page").unwrap();
        let folder = folder.canonicalize().unwrap();
        assert!(file_of("/lesson/?seed=7", &folder).is_some());
        assert!(file_of("/lesson/index.html", &folder).is_some());
        for outside in
            ["/lesson", "/", "/../secret", "/lesson/../../etc/passwd", "//etc/passwd", "/none.html"]
        {
            assert_eq!(file_of(outside, &folder), None, "{outside}");
        }
        fs::remove_dir_all(folder).unwrap();
    }

    /// Serves a folder; where, as a host and its port.
    fn served(folder: &Path) -> String {
        let (tell, told) = std::sync::mpsc::channel();
        let folder = folder.to_owned();
        thread::spawn(move || serve(&folder, 0, None, |address| tell.send(address.to_owned()).unwrap()));
        told.recv().unwrap().trim_start_matches("http://").trim_end_matches('/').to_owned()
    }

    /// What is answered to a request, whole.
    fn asked(host: &str, request: &str) -> String {
        let mut stream = TcpStream::connect(host).unwrap();
        stream.write_all(request.as_bytes()).unwrap();
        let mut text = String::new();
        stream.read_to_string(&mut text).unwrap();
        text
    }

    #[test]
    fn a_page_arrives_with_its_policy_and_past_idle_connections() {
        let folder = std::env::temp_dir().join(format!("outlean-served-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("index.html"), "a page").unwrap();
        let host = served(&folder);
        let ask = |what: &str| {
            asked(&host, &format!("{what} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"))
        };
        let _idle: Vec<TcpStream> = (0..8).map(|_| TcpStream::connect(&host).unwrap()).collect();
        let page = ask("GET /");
        assert!(page.starts_with("HTTP/1.1 200"), "{page}");
        assert!(page.contains(POLICY) && page.ends_with("a page"), "{page}");
        assert!(ask("GET /missing").starts_with("HTTP/1.1 404"));
        assert!(ask("HEAD /").contains("Content-Length: 6") && !ask("HEAD /").ends_with("a page"));
        assert!(ask("POST /").starts_with("HTTP/1.1 405"));
        // Packed for whoever unpacks, as long as it was packed after the page was written.
        fs::write(folder.join("index.html.gz"), "packed").unwrap();
        let unpacking = |what: &str| ask(&format!("{what} HTTP/1.1\r\nAccept-Encoding: br, gzip\r\nX-Rest:"));
        assert!(
            unpacking("GET /").contains("Content-Encoding: gzip\r\n")
                && unpacking("GET /").ends_with("packed")
        );
        assert!(ask("GET /").ends_with("a page"));
        // The smallest that is there and taken.
        fs::write(folder.join("index.html.br"), "smaller").unwrap();
        let said = unpacking("GET /");
        assert!(said.contains("Content-Encoding: br\r\n") && said.ends_with("smaller"), "{said}");
        assert!(
            said.contains("Content-Type: text/html; charset=utf-8\r\n")
                && said.contains("Vary: Accept-Encoding")
        );
        assert!(ask("GET / HTTP/1.1\r\nAccept-Encoding: br;q=0, gzip\r\nX-Rest:").ends_with("packed"));
        thread::sleep(Duration::from_millis(20));
        fs::write(folder.join("index.html"), "a new page").unwrap();
        assert!(unpacking("GET /").ends_with("a new page"));
        fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn what_pages_load_is_kept_for_ever_and_a_page_as_long_as_it_is_the_same() {
        let folder = std::env::temp_dir().join(format!("outlean-kept-{}", std::process::id()));
        let program = "program-0123456789abcdef";
        for (name, text) in [(program, "1"), ("program-of-our-own", "2")] {
            fs::create_dir_all(folder.join(name)).unwrap();
            fs::write(folder.join(name).join("page.js"), text).unwrap();
        }
        fs::write(folder.join("index.html"), "a page").unwrap();
        let host = served(&folder);
        let ask = |what: &str, more: &str| {
            asked(&host, &format!("GET {what} HTTP/1.1\r\nHost: {host}\r\n{more}\r\n"))
        };
        let kept = |what: &str| {
            let said = ask(what, "");
            said.lines().find_map(|line| line.strip_prefix("Cache-Control: ")).unwrap_or_default().to_owned()
        };
        assert_eq!(kept(&format!("/{program}/page.js")), "public, max-age=31536000, immutable");
        assert_eq!(kept("/program-of-our-own/page.js"), "no-cache");
        assert_eq!(kept("/"), "no-cache");
        let page = ask("/", "");
        let tag = page.lines().find_map(|line| line.strip_prefix("ETag: ")).unwrap();
        let again = ask("/", &format!("If-None-Match: {tag}\r\n"));
        assert!(again.starts_with("HTTP/1.1 304 ") && again.ends_with("\r\n\r\n"), "{again}");
        assert!(!again.contains("Content-Length"), "{again}");
        fs::write(folder.join("index.html"), "another page").unwrap();
        assert!(ask("/", &format!("If-None-Match: {tag}\r\n")).ends_with("another page"));
        fs::remove_dir_all(folder).unwrap();
    }
}
