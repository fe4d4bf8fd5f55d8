//! The same in a zip: where the file lies in it, what lies beside it, and zips made to do harm.

use miniz_oxide::deflate::compress_to_vec;
use proptest::prelude::*;
use sowmark_core::task_data::{self, What, limits};

use crate::{EXAMPLE, file, read, refused, session, wrapped};

const STORED: u16 = 0;
const DEFLATED: u16 = 8;

/// A zip as the format's own description has it, each file packed by a method: enough to make what no program makes.
fn zip_with(files: &[(&str, &[u8], u16)], flags: u16) -> Vec<u8> {
    let (mut zip, mut directory) = (Vec::new(), Vec::new());
    for (name, content, method) in files {
        let packed = if *method == DEFLATED { compress_to_vec(content, 9) } else { content.to_vec() };
        let offset = u32::try_from(zip.len()).unwrap();
        let mut head = Vec::new();
        head.extend([20_u16, flags, *method, 0, 0].iter().flat_map(|number| number.to_le_bytes()));
        let lengths =
            [rawzip::crc32(content), u32::try_from(packed.len()).unwrap(), u32::try_from(content.len()).unwrap()];
        head.extend(lengths.iter().flat_map(|number| number.to_le_bytes()));
        head.extend(u16::try_from(name.len()).unwrap().to_le_bytes());
        zip.extend(b"PK\x03\x04");
        zip.extend(&head);
        zip.extend([0, 0]);
        zip.extend(name.as_bytes());
        zip.extend(packed);
        directory.extend(b"PK\x01\x02\x14\x00");
        directory.extend(&head);
        directory.extend([0; 12]);
        directory.extend(offset.to_le_bytes());
        directory.extend(name.as_bytes());
    }
    let (count, size) = (u16::try_from(files.len()).unwrap(), u32::try_from(directory.len()).unwrap());
    let offset = u32::try_from(zip.len()).unwrap();
    zip.extend(directory);
    zip.extend(b"PK\x05\x06\x00\x00\x00\x00");
    zip.extend([count, count].iter().flat_map(|number| number.to_le_bytes()));
    zip.extend([size, offset].iter().flat_map(|number| number.to_le_bytes()));
    zip.extend([0, 0]);
    zip
}

fn zip(files: &[(&str, &[u8])]) -> Vec<u8> {
    let files: Vec<_> = files.iter().map(|(name, content)| (*name, *content, DEFLATED)).collect();
    zip_with(&files, 0)
}

#[test]
fn a_zip_is_read_as_the_file_within() {
    let plain = read(EXAMPLE);
    for (path, method) in
        [("TASKDATA/TASKDATA.XML", DEFLATED), ("taskdata.xml", STORED), ("a\\b\\TASKDATA.XML", DEFLATED)]
    {
        let packed = zip_with(&[(path, EXAMPLE.as_bytes(), method), ("TASKDATA/TLG00001.BIN", b"log", STORED)], 0);
        assert_eq!(task_data::read(&packed).expect(path), plain);
    }
}

#[test]
fn external_files_are_read_from_the_same_folder() {
    let main = wrapped(r#"<XFR A="TSK00001" B="1"/><XFR A="TSK00002" B="1"/>"#);
    let task = |id: &str| format!(r#"<XFC><TSK A="{id}" G="4">{}</TSK></XFC>"#, session(6, 100, 900));
    let files = [
        ("T/TASKDATA.XML", main.as_bytes()),
        ("T/TSK00001.XML", &task("TSK1").into_bytes()),
        ("other/TSK00002.XML", &task("TSK2").into_bytes()),
        ("T/LINKLIST.XML", b"<ISO11783LinkList/>"),
    ];
    let read = task_data::read(&zip(&files)).expect("task data");
    assert_eq!(read.tasks.iter().map(|task| task.id.as_str()).collect::<Vec<_>>(), ["TSK1"]);
    assert_eq!(read.tasks[0].sown[0].mass_g, Some(900));
    let said: Vec<_> = read.remarks.iter().map(|remark| remark.what.clone()).collect();
    assert_eq!(said, [What::FileMissing { file: "TSK00002.XML".to_owned() }, What::LinksNotRead]);
    let broken = refused(&zip(&[files[0], ("T/TSK00001.XML", b"<XFC>\n<TSK")]));
    assert_eq!(broken.place.file, "TSK00001.XML");
    assert_eq!(broken.place.line, Some(2));
}

#[test]
fn zips_that_cannot_be_read_say_why() {
    let content = file("").into_bytes();
    assert_eq!(refused(&zip(&[("LOG.BIN", b"")])).what, What::NoTaskFile);
    let twice = zip(&[("a/TASKDATA.XML", &content), ("b/TASKDATA.XML", &content)]);
    let what = What::SeveralTaskFiles { first: "a/TASKDATA.XML".to_owned(), second: "b/TASKDATA.XML".to_owned() };
    assert_eq!(refused(&twice).what, what);
    assert_eq!(refused(&zip_with(&[("TASKDATA.XML", &content, DEFLATED)], 1)).what, What::ZipEncrypted);
    assert_eq!(refused(&zip_with(&[("TASKDATA.XML", &content, 12)], 0)).what, What::ZipMethod);
    assert_eq!(refused(b"PK\x03\x04 and no more").to_string(), "the zip: The zip is damaged. Pack or copy it again.");
    let mut flipped = zip_with(&[("TASKDATA.XML", &content, STORED)], 0);
    flipped[60] ^= 1;
    assert_eq!(refused(&flipped).what, What::ZipBroken);
    let names: Vec<_> = (0..=limits::FILES).map(|number| format!("{number}.BIN")).collect();
    let files: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), b"".as_slice())).collect();
    assert_eq!(refused(&zip(&files)).what, What::ZipFiles { most: limits::FILES });
}

/// A zip that unpacks to far more than it is, and one of several files that do so together.
#[test]
fn a_zip_is_unpacked_in_bounds() {
    let blank = vec![b' '; limits::XML_BYTES + 1];
    let bomb = zip(&[("TASKDATA.XML", &blank)]);
    assert!(bomb.len() < 40_000);
    assert_eq!(refused(&bomb).what, What::ZipRatio { most: limits::RATIO });
    assert_eq!(refused(&zip_with(&[("TASKDATA.XML", &blank, STORED)], 0)).what, What::TooLarge { most: 32 });
    let main = wrapped(r#"<XFR A="TSK00001" B="1"/>"#);
    let mut second = b"<XFC></XFC>".to_vec();
    second.resize(limits::XML_BYTES, b' ');
    let together = [("TASKDATA.XML", main.as_bytes(), STORED), ("TSK00001.XML", second.as_slice(), STORED)];
    let found = refused(&zip_with(&together, 0));
    assert_eq!((found.place.file.as_str(), found.what), ("TSK00001.XML", What::TooLarge { most: 32 }));
}

/// What is unpacked is taken off what may yet be: a file may fill that to the last byte, and one of another size leaves room.
#[test]
fn a_zip_may_be_filled_to_the_last_byte() {
    let mut main = wrapped(r#"<XFR A="TSK00001" B="1"/>"#).into_bytes();
    let filled = |main: &[u8], length: usize| {
        let mut second = format!(r#"<XFC><TSK A="TSK1" G="4">{}</TSK></XFC>"#, session(6, 100, 900)).into_bytes();
        second.resize(length, b' ');
        let together = [("TASKDATA.XML", main, STORED), ("TSK00001.XML", second.as_slice(), STORED)];
        task_data::read(&zip_with(&together, 0)).expect("task data").tasks[0].sown[0].mass_g
    };
    assert_eq!(filled(&main, limits::XML_BYTES - main.len()), Some(900));
    main.resize(limits::XML_BYTES / 2, b' ');
    assert_eq!(filled(&main, 30_000), Some(900));
    assert_eq!(filled(&main, limits::XML_BYTES / 2), Some(900));
}

#[test]
fn a_zip_of_as_many_files_as_are_allowed_is_read() {
    let content = file(&session(6, 100, 900)).into_bytes();
    let names: Vec<_> = (1..limits::FILES).map(|number| format!("{number}.BIN")).collect();
    let logs = names.iter().map(|name| (name.as_str(), b"".as_slice()));
    let files: Vec<_> = logs.chain([("TASKDATA.XML", content.as_slice())]).collect();
    assert_eq!(task_data::read(&zip(&files)).expect("task data").tasks[0].sown[0].mass_g, Some(900));
}

#[test]
fn every_truncation_of_a_zip_is_refused() {
    let whole = zip(&[("TASKDATA/TASKDATA.XML", EXAMPLE.as_bytes())]);
    for length in 0..whole.len() {
        assert!(task_data::read(&whole[..length]).is_err(), "{length} of {} bytes", whole.len());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn flipped_bytes_of_a_zip_are_read_or_refused(flips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..4)) {
        let mut bytes = zip(&[("TASKDATA/TASKDATA.XML", EXAMPLE.as_bytes())]);
        for (index, byte) in flips {
            let at = index.index(bytes.len());
            bytes[at] = byte;
        }
        if let Err(refused) = task_data::read(&bytes) {
            prop_assert!(!refused.to_string().is_empty());
        }
    }
}
