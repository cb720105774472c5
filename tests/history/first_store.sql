BEGIN TRANSACTION;
CREATE TABLE batches (
	id INTEGER NOT NULL, 
	identity TEXT NOT NULL, 
	"key" TEXT NOT NULL, 
	added_at TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (identity), 
	UNIQUE ("key")
);
INSERT INTO "batches" VALUES(1,'house pale|2026-05-02|tansy','house-pale-2026-05-02','2026-11-25T12:00:00Z');
CREATE TABLE contents (
	id INTEGER NOT NULL, 
	fingerprint TEXT NOT NULL, 
	probe_id INTEGER, 
	name TEXT NOT NULL, 
	brewer TEXT, 
	brewed_on TEXT, 
	style TEXT, 
	style_id TEXT, 
	yeast_id TEXT, 
	method TEXT, 
	tasted TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (fingerprint), 
	FOREIGN KEY(probe_id) REFERENCES probes (id)
);
INSERT INTO "contents" VALUES(1,'607379c062b0718da31b62a2d3c3b52330534570a072f6bd2856b6e89e4090c6',NULL,'house pale','Tansy','2026-05-02','pale ale','pale_ale','clean_ale',NULL,'[{"absent":["sour_milk"],"at_c":null,"not_understood":[],"poured_from":null,"reported":{"butter":null},"when":null,"who":"Wren","words":"buttery, no sourness"}]');
INSERT INTO "contents" VALUES(2,'b10df89a89d165471ed06511491e7e5476a4a65e2000bc5e55288f8345643232',NULL,'house pale','Tansy','2026-05-02','pale ale','pale_ale','clean_ale',NULL,'[{"absent":["sour_milk"],"at_c":null,"not_understood":[],"poured_from":null,"reported":{"butter":null},"when":null,"who":"Wren","words":"buttery, no sourness"}]');
CREATE TABLE diagnoses (
	id INTEGER NOT NULL, 
	uid TEXT NOT NULL, 
	number INTEGER NOT NULL, 
	batch_id INTEGER, 
	at TEXT, 
	who TEXT, 
	how TEXT NOT NULL, 
	made_at TEXT NOT NULL, 
	typed TEXT NOT NULL, 
	body TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (uid, number), 
	FOREIGN KEY(batch_id) REFERENCES batches (id)
);
CREATE TABLE events (
	id INTEGER NOT NULL, 
	uid TEXT NOT NULL, 
	number INTEGER NOT NULL, 
	batch_id INTEGER, 
	at TEXT, 
	who TEXT, 
	how TEXT NOT NULL, 
	made_at TEXT NOT NULL, 
	typed TEXT NOT NULL, 
	body TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (uid, number), 
	FOREIGN KEY(batch_id) REFERENCES batches (id)
);
INSERT INTO "events" VALUES(1,'0667a9615470',1,NULL,'2026-04-01',NULL,'written','2026-11-25T12:02:00Z','a new fridge','{"kind":"equipment"}');
CREATE TABLE faultwort_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT faultwort_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "faultwort_version" VALUES('0001');
CREATE TABLE instrument_checks (
	id INTEGER NOT NULL, 
	uid TEXT NOT NULL, 
	number INTEGER NOT NULL, 
	batch_id INTEGER, 
	at TEXT, 
	who TEXT, 
	how TEXT NOT NULL, 
	made_at TEXT NOT NULL, 
	typed TEXT NOT NULL, 
	body TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (uid, number), 
	FOREIGN KEY(batch_id) REFERENCES batches (id)
);
CREATE TABLE measured (
	content_id INTEGER NOT NULL, 
	rules_version TEXT NOT NULL, 
	findings TEXT NOT NULL, 
	factors TEXT NOT NULL, 
	said TEXT NOT NULL, 
	PRIMARY KEY (content_id), 
	FOREIGN KEY(content_id) REFERENCES contents (id)
);
INSERT INTO "measured" VALUES(1,'cbdcdfaee416','{"alcohol_percent":[4.825467741492731,5.049376463696533,5.238934705412548],"attenuation_gap":[-8.0,0.0,8.0],"pitch_c":[17.88888888888889,18.88888888888889,19.88888888888889],"souring_on_purpose":"no","tasters_agree":"one_only"}','{"events":[],"words":{"brewer":["tansy"],"month":["05"],"style":["pale ale"]}}','{"alcohol_percent":["1.050 to 1.012 makes about 5.0 % alcohol","pale.yaml:5"],"attenuation_gap":["1.050 to 1.012 is 76 % apparent attenuation; Clean ale yeast and this mash would give 70 to 82 %","pale.yaml:5"],"pitch_c":["pitched at 18.9 C (66 F)","pale.yaml:6"],"souring_on_purpose":["not soured on purpose","pale.yaml:4"],"tasters_agree":["tasted by Wren","pale.yaml:7"]}');
INSERT INTO "measured" VALUES(2,'cbdcdfaee416','{"alcohol_percent":[4.825467741492731,5.049376463696533,5.238934705412548],"attenuation_gap":[-8.0,0.0,8.0],"pitch_c":[16.77777777777778,17.77777777777778,18.77777777777778],"souring_on_purpose":"no","tasters_agree":"one_only"}','{"events":[],"words":{"brewer":["tansy"],"month":["05"],"style":["pale ale"]}}','{"alcohol_percent":["1.050 to 1.012 makes about 5.0 % alcohol","pale.yaml:5"],"attenuation_gap":["1.050 to 1.012 is 76 % apparent attenuation; Clean ale yeast and this mash would give 70 to 82 %","pale.yaml:5"],"pitch_c":["pitched at 17.8 C (64 F)","pale.yaml:6"],"souring_on_purpose":["not soured on purpose","pale.yaml:4"],"tasters_agree":["tasted by Wren","pale.yaml:7"]}');
CREATE TABLE panels (
	id INTEGER NOT NULL, 
	uid TEXT NOT NULL, 
	number INTEGER NOT NULL, 
	batch_id INTEGER, 
	at TEXT, 
	who TEXT, 
	how TEXT NOT NULL, 
	made_at TEXT NOT NULL, 
	typed TEXT NOT NULL, 
	body TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (uid, number), 
	FOREIGN KEY(batch_id) REFERENCES batches (id)
);
CREATE TABLE probe_series (
	id INTEGER NOT NULL, 
	probe_id INTEGER NOT NULL, 
	role TEXT NOT NULL, 
	unit TEXT NOT NULL, 
	readings INTEGER NOT NULL, 
	usable INTEGER NOT NULL, 
	lowest FLOAT, 
	mean FLOAT, 
	highest FLOAT, 
	readings_packed BLOB NOT NULL, 
	flags BLOB NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (probe_id, role), 
	FOREIGN KEY(probe_id) REFERENCES probes (id)
);
CREATE TABLE probes (
	id INTEGER NOT NULL, 
	fingerprint TEXT NOT NULL, 
	file_name TEXT NOT NULL, 
	file_sha256 TEXT NOT NULL, 
	readings INTEGER NOT NULL, 
	first_s FLOAT NOT NULL, 
	last_s FLOAT NOT NULL, 
	understood TEXT NOT NULL, 
	times BLOB NOT NULL, 
	lines BLOB NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (fingerprint)
);
CREATE TABLE records (
	content_id INTEGER NOT NULL, 
	file_name TEXT NOT NULL, 
	text TEXT NOT NULL, 
	entries TEXT NOT NULL, 
	PRIMARY KEY (content_id), 
	FOREIGN KEY(content_id) REFERENCES contents (id)
);
INSERT INTO "records" VALUES(1,'pale.yaml','batch: house pale
brewed: 2026-05-02
brewer: Tansy
style: pale ale
gravity: {original: 1.050, final: 1.012}
pitch: {at: 66 F}
tastings: [{who: Wren, words: "buttery, no sourness"}]
','[{"high":1.05,"key":"gravity.original","low":1.05,"typed":"1.050","unit":"SG","value":1.05},{"high":1.012,"key":"gravity.final","low":1.012,"typed":"1.012","unit":"SG","value":1.012},{"key":"tastings[1].who","typed":"Wren"},{"key":"tastings[1].words","typed":"buttery, no sourness"},{"key":"batch","typed":"house pale"},{"key":"brewer","typed":"Tansy"},{"at":"2026-05-02T12:00:00+00:00","key":"brewed","typed":"2026-05-02"},{"key":"style","typed":"pale ale"},{"high":18.88888888888889,"key":"pitch.at","low":18.88888888888889,"typed":"66 F","unit":"C","value":18.88888888888889}]');
INSERT INTO "records" VALUES(2,'pale.yaml','batch: house pale
brewed: 2026-05-02
brewer: Tansy
style: pale ale
gravity: {original: 1.050, final: 1.012}
pitch: {at: 64 F}
tastings: [{who: Wren, words: "buttery, no sourness"}]
','[{"high":1.05,"key":"gravity.original","low":1.05,"typed":"1.050","unit":"SG","value":1.05},{"high":1.012,"key":"gravity.final","low":1.012,"typed":"1.012","unit":"SG","value":1.012},{"key":"tastings[1].who","typed":"Wren"},{"key":"tastings[1].words","typed":"buttery, no sourness"},{"key":"batch","typed":"house pale"},{"key":"brewer","typed":"Tansy"},{"at":"2026-05-02T12:00:00+00:00","key":"brewed","typed":"2026-05-02"},{"key":"style","typed":"pale ale"},{"high":17.77777777777778,"key":"pitch.at","low":17.77777777777778,"typed":"64 F","unit":"C","value":17.77777777777778}]');
CREATE TABLE splits (
	id INTEGER NOT NULL, 
	uid TEXT NOT NULL, 
	number INTEGER NOT NULL, 
	batch_id INTEGER, 
	at TEXT, 
	who TEXT, 
	how TEXT NOT NULL, 
	made_at TEXT NOT NULL, 
	typed TEXT NOT NULL, 
	body TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (uid, number), 
	FOREIGN KEY(batch_id) REFERENCES batches (id)
);
CREATE TABLE tastings (
	id INTEGER NOT NULL, 
	uid TEXT NOT NULL, 
	number INTEGER NOT NULL, 
	batch_id INTEGER, 
	at TEXT, 
	who TEXT, 
	how TEXT NOT NULL, 
	made_at TEXT NOT NULL, 
	typed TEXT NOT NULL, 
	body TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (uid, number), 
	FOREIGN KEY(batch_id) REFERENCES batches (id)
);
CREATE TABLE verdicts (
	id INTEGER NOT NULL, 
	uid TEXT NOT NULL, 
	number INTEGER NOT NULL, 
	batch_id INTEGER, 
	at TEXT, 
	who TEXT, 
	how TEXT NOT NULL, 
	made_at TEXT NOT NULL, 
	typed TEXT NOT NULL, 
	body TEXT NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (uid, number), 
	FOREIGN KEY(batch_id) REFERENCES batches (id)
);
INSERT INTO "verdicts" VALUES(1,'bdc58587b757',1,1,NULL,'Tansy','written','2026-11-25T12:02:00Z','cold on day five','{"basis":"brewer","cause":"crashed_too_soon","confidence":0.7,"flaw":[],"state":"confirmed"}');
CREATE TABLE versions (
	id INTEGER NOT NULL, 
	batch_id INTEGER NOT NULL, 
	number INTEGER NOT NULL, 
	content_id INTEGER, 
	how TEXT NOT NULL, 
	of_number INTEGER, 
	made_at TEXT NOT NULL, 
	file_path TEXT, 
	PRIMARY KEY (id), 
	UNIQUE (batch_id, number), 
	FOREIGN KEY(batch_id) REFERENCES batches (id), 
	FOREIGN KEY(content_id) REFERENCES contents (id)
);
INSERT INTO "versions" VALUES(1,1,1,1,'added',NULL,'2026-11-25T12:00:00Z','/home/tansy/pale.yaml');
INSERT INTO "versions" VALUES(2,1,2,2,'added',NULL,'2026-11-25T12:01:00Z','/home/tansy/pale.yaml');
CREATE INDEX ix_probe_series_probe_id ON probe_series (probe_id);
CREATE INDEX ix_contents_probe_id ON contents (probe_id);
CREATE INDEX ix_versions_batch_id ON versions (batch_id);
CREATE INDEX ix_versions_content_id ON versions (content_id);
CREATE INDEX ix_tastings_batch_id ON tastings (batch_id);
CREATE INDEX ix_verdicts_batch_id ON verdicts (batch_id);
CREATE INDEX ix_splits_batch_id ON splits (batch_id);
CREATE INDEX ix_panels_batch_id ON panels (batch_id);
CREATE INDEX ix_events_batch_id ON events (batch_id);
CREATE INDEX ix_instrument_checks_batch_id ON instrument_checks (batch_id);
CREATE INDEX ix_diagnoses_batch_id ON diagnoses (batch_id);
COMMIT;
