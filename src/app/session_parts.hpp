// Session parts: what the parts of the session have of each other. session.cpp obeys the commands that change the
// draft, the pose and the view, and tells notices; session_files.cpp obeys those about scenes on disk and unsaved work,
// session_clips.cpp those about recordings; session_finds.cpp goes after the search for tooth counts.
#pragma once

#include "app/session.hpp"

namespace couplet {

// In the place of a notice about the same thing.
void tell(Session& session, Notice notice);
void drop_notices(Session& session, std::string_view about);
// A notice that fades by itself, and one of an error.
void note(Session& session, std::string text, std::string about);
void complain(Session& session, std::string text, std::string about);
// True where any was old enough to go.
bool fade_notices(Session& session);

// All that follows from a draft; null, with a notice, where it cannot be worked with.
[[nodiscard]] std::shared_ptr<const Study> studied(Session& session, const Draft& draft);
// The stage of the session's draft, or a notice why there is none.
void take_stage(Session& session);
// `study` is that of the session's draft, which has just changed: the crank and the stage follow.
void take_study(Session& session, std::shared_ptr<const Study> study);

// In session_files.cpp.
void obey(Session& session, const OpenScene& open);
void obey(Session& session, const NewScene& fresh);
void obey(Session& session, const OpenUnsaved& open);
void obey(Session& session, const DropUnsaved& drop);
void obey(Session& session, const SaveScene& save);
void obey(Session& session, const SaveSceneAs& save);
void obey(Session& session, const TakeFromDisk& take);
void obey(Session& session, const KeepMine& keep);

void obey(Session& session, const OpenFound& found);

// In session_finds.cpp: the search and what it shows go after the view; the view is again as it was before a train that
// was found stood on the stage.
void follow_find(Session& session);
void leave_found(Session& session);

// In session_clips.cpp.
void obey(Session& session, const RecordClip& record);
void obey(Session& session, const HandOver& hand_over);
void obey(Session& session, const CancelJob& cancel);

}  // namespace couplet
