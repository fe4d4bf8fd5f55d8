//! What is read of who, where and with what: found again by its id, with what the file says and nothing else.

use sowmark_core::task_data::{Customer, Device, Element, ProcessData, Product, Property, Status, Worker, ddi};

use crate::{EXAMPLE, file, only_task, read, session, wrapped};

#[test]
fn each_is_found_by_its_id_and_by_no_other() {
    let read = read(EXAMPLE);
    assert_eq!(read.customer("CTR1").map(Customer::name).as_deref(), Some("Ada Beispiel"));
    assert_eq!(read.field("PFD1").map(|field| field.name.as_str()), Some("Long Acre"));
    assert_eq!(read.product("PDT2").map(|product| product.name.as_str()), Some("Starter granulate"));
    assert_eq!(read.device("DVC1").and_then(|device| device.serial.as_deref()), Some("SN-0042"));
    assert_eq!((read.customer("CTR2"), read.field("PFD9")), (None, None));
    assert_eq!((read.product("PDT9"), read.device("DVC9")), (None, None));
}

/// Source: ISO 11783-10, attribute `TaskStatus` of TSK, as in the schemas and libraries that `task_data` names.
#[test]
fn a_status_is_what_its_number_says() {
    let statuses = [
        (1, Status::Planned),
        (2, Status::Running),
        (3, Status::Paused),
        (4, Status::Completed),
        (5, Status::Template),
        (6, Status::Cancelled),
    ];
    for (number, status) in statuses {
        let task = only_task(&wrapped(&format!(r#"<TSK A="TSK1" G="{number}"/>"#)));
        assert_eq!(task.status, status);
        assert_eq!(task.is_only_planned(), matches!(status, Status::Planned | Status::Template), "{status:?}");
    }
    // What was begun has sown something, whether or not it was finished.
    for number in [2, 3, 4, 6] {
        let task = only_task(&file(&session(6, 100, 900)).replace(r#"G="4""#, &format!(r#"G="{number}""#)));
        assert_eq!(task.sown[0].mass_g, Some(900), "{number}");
    }
}

#[test]
fn who_a_task_belongs_to() {
    let people = r#"<CTR A="CTR1" B="Beispiel"/><FRM A="FRM1" B="Hill Farm" I="CTR1"/>
        <WKR A="WKR1" B="Muster" C="Kim"/><WKR A="WKR2" B="Soto"/>"#;
    let task = r#"<TSK A="TSK1" B="Wheat" C="CTR1" D="FRM1" E="PFD1" F="WKR1" G="1"/>"#;
    let read = read(&wrapped(&format!("{people}{task}")));
    let [Customer { id, last, first: None }] = &read.customers[..] else { panic!("{:?}", read.customers) };
    assert_eq!((id.as_str(), last.as_str()), ("CTR1", "Beispiel"));
    assert_eq!(read.customers[0].name(), "Beispiel");
    assert_eq!(read.workers.iter().map(Worker::name).collect::<Vec<_>>(), ["Kim Muster", "Soto"]);
    assert_eq!((read.farms[0].name.as_str(), read.farms[0].customer.as_deref()), ("Hill Farm", Some("CTR1")));
    let task = &read.tasks[0];
    assert_eq!(task.name.as_deref(), Some("Wheat"));
    let named = [&task.customer, &task.farm, &task.field, &task.worker].map(Option::as_deref);
    assert_eq!(named, ["CTR1", "FRM1", "PFD1", "WKR1"].map(Some));
    assert!(task.faults.is_empty() && read.remarks.is_empty());
}

/// Nothing measured stands in the file as 0.
#[test]
fn a_field_or_a_product_without_figures_has_none() {
    let more = r#"<PFD A="PFD2" B="F-08" C="Short Acre" D="0" E="CTR1" F="FRM1"/>
        <PDT A="PDT3" B="Oats" E="0051" H="0" I="0"/><PDT A="PDT4" B="Barley" H="1" I="1"/>
        <CTR A="CTR1" B="Beispiel"/><FRM A="FRM1" B="Hill Farm"/>"#;
    let read = read(&wrapped(more));
    let field = read.field("PFD2").expect("a field");
    assert_eq!((field.code.as_deref(), field.area_m2), (Some("F-08"), None));
    assert_eq!((field.customer.as_deref(), field.farm.as_deref()), (Some("CTR1"), Some("FRM1")));
    let figures = |id| {
        let Product { quantity_ddi, bulk_density_mg_per_l, thousand_seed_mass_mg, .. } =
            *read.product(id).expect("a product");
        (quantity_ddi, bulk_density_mg_per_l, thousand_seed_mass_mg)
    };
    assert_eq!(figures("PDT3"), (Some(ddi::TOTAL_MASS), None, None));
    assert_eq!(figures("PDT4"), (None, Some(1), Some(1)));
}

fn device(inside: &str) -> Device {
    let file = format!(
        r#"<ISO11783_TaskData VersionMajor="3" VersionMinor="3"><DVC A="DVC1" B="Seeder" D="a00084000020000F" E="SN-1">{inside}</DVC></ISO11783_TaskData>"#
    );
    read(&file).devices.remove(0)
}

/// As it is set, else as it is built, else the most that it can be; a width of nothing is none.
#[test]
fn a_width_is_the_nearest_to_the_one_at_work() {
    let width = |properties: &[(&str, i64)]| {
        let properties =
            (1..).zip(properties).map(|(object, (ddi, value))| format!(r#"<DPT A="{object}" B="{ddi}" C="{value}"/>"#));
        device(&properties.collect::<String>()).working_width_mm()
    };
    assert_eq!(width(&[("0046", 9000), ("0044", 6000), ("0043", 5500)]), Some(5500));
    assert_eq!(width(&[("0046", 9000), ("0044", 6000)]), Some(6000));
    assert_eq!(width(&[("0046", 9000), ("0042", 7000)]), Some(9000));
    assert_eq!(width(&[("0043", 1)]), Some(1));
    assert_eq!((width(&[("0043", 0)]), width(&[("0043", -5)]), width(&[])), (None, None, None));
}

#[test]
fn a_machine_as_it_describes_itself() {
    let device = device(
        r#"<DET A="DET1" B="1" C="1" D="Frame" E="0" F="0"/>
           <DET A="DET2" B="2" C="3" E="7" F="1"><DOR A="21"/><DOR A="22"/></DET>
           <DPD A="21" B="0160" C="3" D="31" E="Seed"/><DPD A="22" B="010a" C="1" D="16"/><DPT A="23" B="0043" C="6000"/>"#,
    );
    assert_eq!((device.name.as_deref(), device.serial.as_deref()), (Some("Seeder"), Some("SN-1")));
    // The NAME of a network is a number in hexadecimal: how its letters are written makes no other machine.
    assert_eq!(device.identity(), "A00084000020000F/SN-1");
    assert_eq!(Device { serial: None, ..device.clone() }.identity(), "A00084000020000F/");
    let frame = Element {
        id: "DET1".to_owned(),
        object: 1,
        name: Some("Frame".to_owned()),
        kind: 1,
        number: 0,
        parent: 0,
        objects: Vec::new(),
    };
    let tank =
        Element { id: "DET2".to_owned(), object: 2, name: None, kind: 3, number: 7, parent: 1, objects: vec![21, 22] };
    assert_eq!(device.elements, [frame, tank]);
    let grams = ProcessData { object: 21, ddi: 0x160, property: 3, trigger: 31, name: Some("Seed".to_owned()) };
    let lifetime = ProcessData { object: 22, ddi: 0x10A, property: 1, trigger: 16, name: None };
    assert_eq!(device.process_data, [grams, lifetime]);
    assert_eq!(device.properties, [Property { object: 23, ddi: ddi::WORKING_WIDTH, value: 6000 }]);
}

/// Rule 1 of reading totals: bit 16 of the trigger makes a total, and bit 2 of the property one of the task.
#[test]
fn a_total_of_the_task_is_one_that_can_be_set() {
    let reported = |property, trigger| ProcessData { object: 1, ddi: ddi::TOTAL_MASS, property, trigger, name: None };
    for property in 0..8 {
        for trigger in 0..32 {
            let is_total = trigger >= 16;
            let is_settable = [2, 3, 6, 7].contains(&property);
            assert_eq!(reported(property, trigger).is_total(), is_total, "{trigger}");
            assert_eq!(reported(property, trigger).is_task_total(), is_total && is_settable, "{property} {trigger}");
        }
    }
}
