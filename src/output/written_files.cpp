#include "sunfleck/output/written_files.h"

#include "output/json_envelope.h"

namespace sunfleck::output {

std::string written_files_json(const Envelope& envelope, const std::vector<WrittenFile>& files) {
    Json json = result_envelope(envelope);
    json["files"] = Json::array();
    for (const WrittenFile& file : files) {
        Json row;
        row["path"] = file.path;
        row["kind"] = file.kind;
        row["pages"] = file.pages;
        json["files"].push_back(row);
    }
    return json_text(json);
}

}  // namespace sunfleck::output
