//! A made folder on disk: whether it is ours to replace, and how it is replaced in one step.
//!
//! Everything is written into a hidden folder beside the target, then the two change places. Whatever stops the run, the
//! target is the old folder whole or the new one whole. Leftovers of a stopped run carry our prefix and are cleared by
//! the next one; a lock on each tells a stopped run from one that is still at work.

use cintre_proof::MANIFEST;
use rustix::fs::{CWD, FlockOperation, RenameFlags, flock, renameat_with};
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Why a folder cannot be written.
#[derive(Debug, Error)]
pub(crate) enum FolderError {
    /// Something is in it that this tool did not make.
    #[error("{folder} holds {file}, which cintre did not make; nothing was touched")]
    Foreign { folder: PathBuf, file: String },
    /// It is there, not empty, and has no manifest of ours.
    #[error("{folder} is not empty and cintre did not make it; nothing was touched")]
    NotOurs { folder: PathBuf },
    /// A file stands where the folder should.
    #[error("{0} is a file; name a folder")]
    IsFile(PathBuf),
    /// The folder that the command runs in cannot change places with another.
    #[error("{0} is the folder that you stand in, and it is replaced in one step: name a folder inside it")]
    StoodIn(PathBuf),
    /// The operating system refused.
    #[error("{path} cannot be {what}: {error}")]
    Io {
        path: PathBuf,
        what: &'static str,
        error: io::Error,
    },
}

fn refused(path: &Path, what: &'static str) -> impl FnOnce(io::Error) -> FolderError {
    let path = path.to_owned();
    move |error| FolderError::Io { path, what, error }
}

/// A new folder under way, beside the one it will replace. Dropped before it is handed over, it vanishes.
#[derive(Debug)]
pub(crate) struct Underway {
    target: PathBuf,
    draft: PathBuf,
    /// Held open for its lock, which tells other runs that this one is alive.
    _lock: fs::File,
}

impl Underway {
    /// Begins a folder that will become `target`, having made sure that it may be replaced.
    pub(crate) fn begin(target: &Path) -> Result<Self, FolderError> {
        let target = &resolved(target)?;
        let parent = parent_of(target);
        fs::create_dir_all(&parent).map_err(refused(&parent, "made"))?;
        clear_leftovers(target, &parent)?;
        ours(target)?;
        let draft = parent.join(format!("{}{}", prefix(target), std::process::id()));
        let lock = made_and_locked(&draft)?;
        Ok(Self {
            target: target.to_owned(),
            draft,
            _lock: lock,
        })
    }

    /// Writes a file of the folder, by its path inside with `/`.
    pub(crate) fn write(&self, path: &str, bytes: &[u8]) -> Result<(), FolderError> {
        let file = self.draft.join(path);
        if let Some(folder) = file.parent() {
            fs::create_dir_all(folder).map_err(refused(folder, "made"))?;
        }
        fs::write(&file, bytes).map_err(refused(&file, "written"))
    }

    /// Reads a file of the folder back from disk.
    pub(crate) fn read(&self, path: &str) -> Result<Vec<u8>, FolderError> {
        let file = self.draft.join(path);
        fs::read(&file).map_err(refused(&file, "read"))
    }

    /// Every file written so far, by its path inside.
    pub(crate) fn files(&self) -> Result<BTreeSet<String>, FolderError> {
        files_in(&self.draft)
    }

    /// Puts the folder in the target's place.
    pub(crate) fn hand_over(self) -> Result<(), FolderError> {
        // Asked again: something may have been put there meanwhile.
        ours(&self.target)?;
        if !self.target.exists() {
            return fs::rename(&self.draft, &self.target).map_err(refused(&self.target, "put in place"));
        }
        // Dropping `self` then removes what stands under the draft's name: the old folder.
        match renameat_with(CWD, &self.draft, CWD, &self.target, RenameFlags::EXCHANGE) {
            Ok(()) => Ok(()),
            Err(rustix::io::Errno::INVAL | rustix::io::Errno::NOSYS | rustix::io::Errno::NOTSUP) => {
                self.swap_in_two_steps()
            }
            Err(error) => Err(refused(&self.target, "replaced")(error.into())),
        }
    }

    /// Where folders cannot change places: the old one steps aside under our prefix, from where `clear_leftovers` brings
    /// it back if the run stops between the steps.
    fn swap_in_two_steps(&self) -> Result<(), FolderError> {
        let aside = parent_of(&self.target).join(format!("{}old", prefix(&self.target)));
        fs::rename(&self.target, &aside).map_err(refused(&self.target, "put aside"))?;
        fs::rename(&self.draft, &self.target).map_err(refused(&self.target, "put in place"))?;
        fs::remove_dir_all(&aside).map_err(refused(&aside, "removed"))
    }
}

impl Drop for Underway {
    fn drop(&mut self) {
        // Where it cannot be removed now, the next run finds it by its prefix, and says so if it cannot either.
        drop(fs::remove_dir_all(&self.draft));
    }
}

/// A new folder with our lock on it. Between the two steps another run may take it for a leftover and clear it away: then once more.
fn made_and_locked(draft: &Path) -> Result<fs::File, FolderError> {
    loop {
        fs::create_dir(draft).map_err(refused(draft, "made"))?;
        let lock = match fs::File::open(draft) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => continue,
            opened => opened.map_err(refused(draft, "opened"))?,
        };
        flock(&lock, FlockOperation::LockExclusive).map_err(|e| refused(draft, "locked")(e.into()))?;
        if draft.exists() {
            return Ok(lock);
        }
    }
}

/// Every file under `folder`, by its path inside with `/`, in order.
pub(crate) fn files_in(folder: &Path) -> Result<BTreeSet<String>, FolderError> {
    let mut found = files_and_empty_folders(folder)?;
    found.retain(|path| !path.ends_with('/'));
    Ok(found)
}

/// Every file under `folder`, and every empty folder, whose path ends in `/`.
fn files_and_empty_folders(folder: &Path) -> Result<BTreeSet<String>, FolderError> {
    let mut found = BTreeSet::new();
    let mut open = vec![(folder.to_owned(), String::new())];
    while let Some((at, inside)) = open.pop() {
        let mut empty = true;
        for entry in fs::read_dir(&at).map_err(refused(&at, "read"))? {
            empty = false;
            let entry = entry.map_err(refused(&at, "read"))?;
            let path = format!("{inside}{}", entry.file_name().to_string_lossy());
            // A link is a file of somebody's, wherever it leads.
            if entry.file_type().map_err(refused(&at, "read"))?.is_dir() {
                open.push((entry.path(), format!("{path}/")));
            } else {
                found.insert(path);
            }
        }
        if empty && !inside.is_empty() {
            found.insert(inside);
        }
    }
    Ok(found)
}

/// Whether `target` may be replaced: it is not there, or empty, or holds our manifest and nothing that it does not list.
fn ours(target: &Path) -> Result<(), FolderError> {
    if target.symlink_metadata().is_err() {
        return Ok(());
    }
    let present = files_and_empty_folders(target)?;
    if present.is_empty() {
        return Ok(());
    }
    let manifest = target.join(MANIFEST);
    let listed = fs::read_to_string(&manifest)
        .ok()
        .and_then(|text| cintre_make::files_listed(&text));
    let Some(listed) = listed else {
        return Err(FolderError::NotOurs {
            folder: target.to_owned(),
        });
    };
    match present
        .iter()
        .find(|&file| file != MANIFEST && !listed.contains(file) && !is_emptied(file, &listed))
    {
        None => Ok(()),
        Some(file) => Err(FolderError::Foreign {
            folder: target.to_owned(),
            file: file.clone(),
        }),
    }
}

/// Whether `path` is a folder of ours that somebody has taken the files out of.
fn is_emptied(path: &str, listed: &BTreeSet<String>) -> bool {
    path.ends_with('/') && listed.iter().any(|file| file.starts_with(path))
}

/// Where `target` really is: a link is followed, so that what it leads to is replaced and not the link.
fn resolved(target: &Path) -> Result<PathBuf, FolderError> {
    if target.symlink_metadata().is_err() {
        return Ok(target.to_owned());
    }
    let real = fs::canonicalize(target).map_err(refused(target, "followed"))?;
    if !real.is_dir() {
        return Err(FolderError::IsFile(target.to_owned()));
    }
    let here = std::env::current_dir()
        .and_then(fs::canonicalize)
        .map_err(refused(Path::new("."), "found"))?;
    if here.starts_with(&real) {
        return Err(FolderError::StoodIn(target.to_owned()));
    }
    Ok(real)
}

fn parent_of(target: &Path) -> PathBuf {
    match target.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
        _ => PathBuf::from("."),
    }
}

fn prefix(target: &Path) -> String {
    let name = target
        .file_name()
        .map_or_else(|| "out".into(), |name| name.to_string_lossy());
    format!(".{name}.cintre-")
}

/// Removes what stopped runs left beside the target, and brings back a folder that one had put aside.
fn clear_leftovers(target: &Path, parent: &Path) -> Result<(), FolderError> {
    let prefix = prefix(target);
    let mut left = Vec::new();
    for entry in fs::read_dir(parent).map_err(refused(parent, "read"))? {
        let entry = entry.map_err(refused(parent, "read"))?;
        if entry.file_name().to_string_lossy().starts_with(&prefix) {
            left.push(entry.path());
        }
    }
    for path in left {
        if path.to_string_lossy().ends_with("cintre-old") && !target.exists() {
            fs::rename(&path, target).map_err(refused(&path, "brought back"))?;
            continue;
        }
        // A run that ends meanwhile clears away its own.
        let folder = match fs::File::open(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => continue,
            opened => opened.map_err(refused(&path, "opened"))?,
        };
        if flock(&folder, FlockOperation::NonBlockingLockExclusive).is_ok() {
            match fs::remove_dir_all(&path) {
                Err(error) if error.kind() == io::ErrorKind::NotFound => {}
                removed => removed.map_err(refused(&path, "removed"))?,
            }
        }
    }
    Ok(())
}
