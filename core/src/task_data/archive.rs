//! From the bytes that were sent to the XML files inside: a plain file, or a zip that is unpacked in bounds. Only the files
//! that are read are unpacked.

use std::borrow::Cow;

use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_with_limit};
use rawzip::{CompressionMethod, ZipArchive, ZipArchiveEntryWayfinder, ZipSliceArchive};

use super::{
    finding::{Place, Refused, What},
    limits,
};

/// What the file is called in everything that is said of it.
pub(super) const MAIN: &str = "TASKDATA.XML";

/// The files that were sent.
pub(super) enum Archive<'a> {
    Plain(&'a [u8]),
    Zip(Box<Zip<'a>>),
}

/// A zip with its directory, and how many bytes may yet be unpacked.
pub(super) struct Zip<'a> {
    archive: ZipSliceArchive<&'a [u8]>,
    entries: Vec<Entry>,
    /// The folder of the task file, with the slash at its end.
    folder: String,
    left: usize,
}

#[derive(Clone)]
struct Entry {
    path: String,
    method: CompressionMethod,
    is_encrypted: bool,
    at: ZipArchiveEntryWayfinder,
}

fn refused(file: &str, what: What) -> Refused {
    Refused(Place::file(file).finding(what))
}

impl<'a> Archive<'a> {
    pub(super) fn open(bytes: &'a [u8]) -> Result<Self, Refused> {
        if !bytes.starts_with(b"PK") {
            return Ok(Self::Plain(bytes));
        }
        let broken = || refused("zip", What::ZipBroken);
        let archive = ZipArchive::from_slice(bytes).map_err(|_| broken())?;
        let mut entries = Vec::new();
        let mut records = archive.entries();
        while let Some(record) = records.next_entry().map_err(|_| broken())? {
            if entries.len() == limits::FILES {
                return Err(refused("zip", What::ZipFiles { most: limits::FILES }));
            }
            // Some programs write the separator of their own system.
            let path = String::from_utf8_lossy(record.file_path().as_bytes()).replace('\\', "/");
            entries.push(Entry {
                path,
                method: record.compression_method(),
                is_encrypted: record.flags().is_encrypted(),
                at: record.wayfinder(),
            });
        }
        Ok(Self::Zip(Box::new(Zip { archive, entries, folder: String::new(), left: limits::XML_BYTES })))
    }

    /// The task file itself.
    pub(super) fn main(&mut self) -> Result<Cow<'a, [u8]>, Refused> {
        match self {
            Self::Plain(bytes) if bytes.len() > limits::XML_BYTES => {
                Err(refused(MAIN, What::TooLarge { most: limits::XML_BYTES / 1024 / 1024 }))
            }
            Self::Plain(bytes) => Ok(Cow::Borrowed(*bytes)),
            Self::Zip(zip) => zip.main().map(Cow::Owned),
        }
    }

    /// Another file of the same folder, if it was sent.
    pub(super) fn beside(&mut self, name: &str) -> Result<Option<Vec<u8>>, Refused> {
        let Self::Zip(zip) = self else { return Ok(None) };
        let path = format!("{}{name}", zip.folder);
        let found = zip.entries.iter().find(|entry| entry.path.eq_ignore_ascii_case(&path)).cloned();
        found.map(|entry| zip.unpack(name, &entry)).transpose()
    }

    /// The list of links, if one was sent.
    pub(super) fn link_list(&self) -> Option<&'static str> {
        const NAME: &str = "LINKLIST.XML";
        let Self::Zip(zip) = self else { return None };
        zip.entries.iter().any(|entry| name_of(&entry.path).eq_ignore_ascii_case(NAME)).then_some(NAME)
    }
}

fn name_of(path: &str) -> &str {
    path.rsplit('/').next().unwrap_or(path)
}

impl Zip<'_> {
    fn main(&mut self) -> Result<Vec<u8>, Refused> {
        // What a certain system packs beside each file ("__MACOSX/…/._TASKDATA.XML") has another name.
        let mut found = self.entries.iter().filter(|entry| name_of(&entry.path).eq_ignore_ascii_case(MAIN));
        let Some(entry) = found.next().cloned() else {
            return Err(refused("zip", What::NoTaskFile));
        };
        if let Some(second) = found.next() {
            let files = [entry.path.clone(), second.path.clone()];
            return Err(refused("zip", What::SeveralTaskFiles { first: files[0].clone(), second: files[1].clone() }));
        }
        let length = entry.path.len() - name_of(&entry.path).len();
        entry.path[..length].clone_into(&mut self.folder);
        self.unpack(MAIN, &entry)
    }

    fn unpack(&mut self, name: &str, entry: &Entry) -> Result<Vec<u8>, Refused> {
        if entry.is_encrypted {
            return Err(refused(name, What::ZipEncrypted));
        }
        let broken = || refused(name, What::ZipBroken);
        let packed = self.archive.get_entry(entry.at).map_err(|_| broken())?;
        let bytes = packed.data();
        let by_ratio = bytes.len().saturating_mul(limits::RATIO);
        let most = self.left.min(by_ratio);
        let too_much = || {
            let of_ratio = What::ZipRatio { most: limits::RATIO };
            let of_length = What::TooLarge { most: limits::XML_BYTES / 1024 / 1024 };
            refused(name, if by_ratio < self.left { of_ratio } else { of_length })
        };
        let unpacked = match entry.method {
            CompressionMethod::STORE if bytes.len() > most => return Err(too_much()),
            CompressionMethod::STORE => bytes.to_vec(),
            CompressionMethod::DEFLATE => {
                decompress_to_vec_with_limit(bytes, most).map_err(|error| match error.status {
                    TINFLStatus::HasMoreOutput => too_much(),
                    _ => broken(),
                })?
            }
            _ => return Err(refused(name, What::ZipMethod)),
        };
        let claimed = packed.claim_verifier();
        if claimed.crc != rawzip::crc32(&unpacked) {
            return Err(broken());
        }
        self.left -= unpacked.len();
        Ok(unpacked)
    }
}
