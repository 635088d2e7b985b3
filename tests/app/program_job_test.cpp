// Recordings in the background, by the real program and by small ones that go wrong on purpose.
#include "app/program_job.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <stdexcept>
#include <thread>

#include "app/clip_wish.hpp"
#include "app/hand_over.hpp"
#include "app/kept_folder.hpp"
#include "app/process.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class ProgramJobs : public KeptFolder {
  protected:
    // As the frame loop does; a job that hangs is ended by CTest.
    void look_until(const std::function<bool()>& done, const std::function<void()>& look) const {
        while (!done()) {
            look();
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
    }
    void look_until_over(ProgramJob& job) {
        look_until([&] { return job.progress().is_over(); }, [&] { (void)job.look(clock_s_ += 0.25); });
    }
    void look_until_over(Session& session) {
        look_until([&] { return !session.job; }, [&] { (void)look_after_job(session, clock_s_ += 0.25); });
    }
    // Stands in for the program; what it records is for it to say.
    [[nodiscard]] ProgramOrder shell(const std::string& script) const {
        write(folder() / "scene.toml", "of the recording alone");
        return {"/bin/sh", {"-c", script}, folder() / "scene.toml", folder() / "clip.mp4"};
    }
    // A session whose recordings are small and quick.
    [[nodiscard]] Session small_session() const {
        Session session = open_session({}, folder() / "kept");
        session.program = COUPLET_PROGRAM;
        ClipChoice& clip = session.view.clip;
        clip = with_target(session, clip, (folder() / "clip.mp4").string());
        clip.size_px = {64, 36};
        clip.seconds = 1;
        clip.fps = 5;
        return session;
    }
    void ask(Session& session, Command command) { apply(session, {session.view, {std::move(command)}}, clock_s_); }
    void record(Session& session) { ask(session, RecordClip{session.view.clip, 1.0}); }

    [[nodiscard]] std::size_t files_but_the_kept() const {
        std::size_t count = 0;
        for (const auto& entry : fs::directory_iterator(folder())) count += entry.path().filename() == "kept" ? 0 : 1;
        return count;
    }

    double clock_s_ = 0.0;
};

using RecordingSession = ProgramJobs;

TEST_F(ProgramJobs, StopWhenAskedTo) {
    ProgramJob job(shell("sleep 100"));
    EXPECT_EQ(job.progress().state, ProgramProgress::State::working);
    EXPECT_EQ(job.progress().frames, 0);
    job.cancel();
    EXPECT_EQ(job.progress().state, ProgramProgress::State::stopping);
    look_until_over(job);
    EXPECT_EQ(job.progress().state, ProgramProgress::State::stopped);
}

// Four frames in two seconds of the given clock, and four are left.
TEST_F(ProgramJobs, MeasureTheirSpeedFromTheFirstFrameSeen) {
    const fs::path gate = folder() / "gate";
    ProgramJob job(shell("echo frame 1 of 9; until [ -e '" + gate.string() + "' ]; do sleep 0.01; done; " +
                         "echo frame 2 of 9; echo frame 5 of 9; sleep 100"));
    look_until([&] { return job.progress().frames_done == 1; }, [&] { (void)job.look(10.0); });
    EXPECT_FALSE(job.progress().fps);
    write(gate, "");
    look_until([&] { return job.progress().frames_done == 5; }, [&] { (void)job.look(12.0); });
    EXPECT_EQ(job.progress().frames, 9);
    EXPECT_EQ(job.progress().fps, 2.0);
    EXPECT_EQ(job.progress().seconds_left, 2.0);
}

TEST_F(ProgramJobs, SayWhyTheyFailed) {
    ProgramJob job(shell("echo 'couplet: the disk is full; make room' >&2; exit 2"));
    look_until_over(job);
    EXPECT_EQ(job.progress().state, ProgramProgress::State::failed);
    EXPECT_EQ(job.progress().why_failed, "the disk is full; make room");
    EXPECT_FALSE(fs::exists(folder() / "scene.toml")) << "the recording's own scene goes with it";
    ProgramJob silent(shell("exit 3"));
    look_until_over(silent);
    EXPECT_EQ(silent.progress().why_failed, "the program ended with status 3");
}

// 0: done; 1: done, and the train stands (cli/options.hpp).
TEST_F(ProgramJobs, AreDoneByStatusZeroAndOne) {
    for (const char* script : {"exit 0", "exit 1"}) {
        ProgramJob job(shell(script));
        look_until_over(job);
        EXPECT_EQ(job.progress().state, ProgramProgress::State::done) << script;
    }
}

TEST_F(ProgramJobs, ThatAreKilledHaveFailed) {
    ProgramJob job(shell("echo frame 1 of 9; sleep 100"));
    kill(-job.pid(), SIGKILL);
    look_until_over(job);
    EXPECT_EQ(job.progress().state, ProgramProgress::State::failed);
    EXPECT_NE(job.progress().why_failed.find("was ended from outside"), std::string::npos);
}

TEST_F(ProgramJobs, ThatCannotBeginThrow) {
    ProgramOrder order = shell("");
    order.program = folder() / "nothing";
    EXPECT_THROW(ProgramJob{order}, std::runtime_error);
    EXPECT_FALSE(fs::exists(order.scene));
}

TEST_F(ProgramJobs, LeaveNoProcess) {
    Process process;
    {
        const ProgramJob job(shell("echo frame 1 of 9; exec sleep 100"));
        process.pid = job.pid();
        EXPECT_TRUE(is_running(process));
    }
    EXPECT_FALSE(is_running(process));
}

TEST_F(RecordingSession, RecordsByTheRealProgram) {
    Session session = small_session();
    session.view.look.observer = find_member(session.train(), "drum").value();
    session.view.look.arrows = true;
    session.view.clip.captions = {true, true, true};
    session.view.clip.closeness = ClipChoice::Closeness::as_shown;
    record(session);
    ASSERT_TRUE(session.job);
    record(session);
    ASSERT_EQ(session.notices.size(), 1U);
    EXPECT_EQ(session.notices[0].text, "clip.mp4 is still being recorded: one at a time");
    int frames = 0;
    look_until([&] { return !session.job; },
               [&] {
                   (void)look_after_job(session, clock_s_ += 0.25);
                   if (session.job) frames = std::max(frames, session.job->progress().frames);
               });
    ASSERT_EQ(session.notices.size(), 1U);
    EXPECT_EQ(session.notices[0].text, "clip.mp4 is recorded, in " + folder().string());
    EXPECT_EQ(frames, 5);  // 1 s at 5 frames a second
    // MP4 begins with a box of the type "ftyp" (ISO/IEC 14496-12, 4.3).
    EXPECT_EQ(read(folder() / "clip.mp4").substr(4, 4), "ftyp");
    EXPECT_EQ(files_but_the_kept(), 1U);
    ask(session, Answer{0, 0});
    EXPECT_EQ(session.clipboard, (folder() / "clip.mp4").string());
}

TEST_F(RecordingSession, RecordsAFolderOfPicturesOfWhatIsTried) {
    Session session = small_session();
    session.view.clip = with_kind(session.view.clip, ClipKind::picture_folder);
    session.view.clip.transparent = true;
    ask(session, ChangeDraft{"test", driven_at(session.draft(), find_member(session.train(), "crank").value(), 7), ""});
    record(session);
    look_until_over(session);
    EXPECT_EQ(session.notices.back().text, "clip/ is recorded, in " + folder().string());
    EXPECT_TRUE(fs::exists(folder() / "clip" / "000005.png"));
    EXPECT_FALSE(fs::exists(folder() / "clip" / "000006.png"));
    // The folder is not replaced: the recorder's own words.
    record(session);
    look_until_over(session);
    EXPECT_EQ(session.notices.back().kind, Notice::Kind::error);
    EXPECT_NE(session.notices.back().text.find("is there already and holds something"), std::string::npos);
}

TEST_F(RecordingSession, AsksBeforeItReplacesAFile) {
    Session session = small_session();
    write(folder() / "clip.mp4", "dear");
    record(session);
    EXPECT_FALSE(session.job);
    ASSERT_EQ(session.notices.size(), 1U);
    EXPECT_EQ(session.notices[0].kind, Notice::Kind::question);
    EXPECT_EQ(session.notices[0].text, "There is a file clip.mp4 already.");
    ask(session, Answer{0, 1});  // leave it
    EXPECT_FALSE(session.job);
    EXPECT_EQ(read(folder() / "clip.mp4"), "dear");
    record(session);
    ask(session, Answer{0, 0});  // replace it
    ASSERT_TRUE(session.job);
    look_until_over(session);
    EXPECT_EQ(read(folder() / "clip.mp4").substr(4, 4), "ftyp");
}

TEST_F(RecordingSession, IsCancelledAndLeavesNothing) {
    Session session = small_session();
    session.view.clip.seconds = 3600;
    record(session);
    ASSERT_TRUE(session.job);
    look_until([&] { return session.job->progress().frames_done > 0; },
               [&] { (void)look_after_job(session, clock_s_ += 0.25); });
    ask(session, CancelJob{});
    EXPECT_EQ(session.job->progress().state, ProgramProgress::State::stopping);
    look_until_over(session);
    EXPECT_EQ(session.notices.back().text, "clip.mp4 is cancelled: it is not recorded");
    EXPECT_EQ(files_but_the_kept(), 0U);
}

TEST_F(RecordingSession, EndsWithTheWindow) {
    Process process;
    {
        Session session = small_session();
        session.view.clip.seconds = 3600;
        record(session);
        ASSERT_TRUE(session.job);
        process.pid = session.job->pid();
        close_session(session);
    }
    EXPECT_FALSE(is_running(process));
    EXPECT_EQ(files_but_the_kept(), 0U);
}

TEST_F(RecordingSession, TellsThatTheEncoderIsMissing) {
    Session session = small_session();
    const std::string path = std::getenv("PATH");  // NOLINT(concurrency-mt-unsafe): one thread
    setenv("PATH", folder().c_str(), 1);           // NOLINT(concurrency-mt-unsafe)
    record(session);
    setenv("PATH", path.c_str(), 1);  // NOLINT(concurrency-mt-unsafe)
    ASSERT_TRUE(session.job);
    look_until_over(session);
    ASSERT_EQ(session.notices.size(), 1U);
    EXPECT_EQ(session.notices[0].text.find("clip.mp4 is not recorded: ffmpeg, which writes .mp4 clips, is not on this"),
              0U)
        << session.notices[0].text;
}

TEST_F(RecordingSession, TellsWhatIsInTheWay) {
    Session session = small_session();
    session.view.clip = with_target(session, session.view.clip, (folder() / "no" / "such" / "clip.mp4").string());
    record(session);
    if (session.job) look_until_over(session);
    ASSERT_EQ(session.notices.size(), 1U);
    EXPECT_EQ(session.notices[0].kind, Notice::Kind::error);
    EXPECT_EQ(session.notices[0].text.find("clip.mp4 is not recorded: "), 0U) << session.notices[0].text;
    session.program = folder() / "nothing";
    record(session);
    EXPECT_FALSE(session.job);
    EXPECT_NE(session.notices[0].text.find("cannot be started"), std::string::npos);
    session.view.clip.size_px = {63, 36};
    record(session);
    EXPECT_EQ(session.notices[0].text.find("63x36 has an odd side"), 0U);
}

// Each kind by the real program, of the train as it is now: a draft that was never saved with its last change.
TEST_F(ProgramJobs, HandOverEveryKindBesideTheScene) {
    Session session = open_session({}, folder() / "kept");
    session.program = COUPLET_PROGRAM;
    ask(session, SaveSceneAs{folder() / "quay.toml"});
    Draft draft = session.draft();
    draft.train.title = "Quay, changed";
    ask(session, ChangeDraft{"title", draft, ""});
    for (std::size_t kind = 0; kind < kHandOverKinds.size(); ++kind) {
        ask(session, HandOver{kind});
        ASSERT_TRUE(session.job) << kHandOverKinds[kind].name;
        const fs::path target = session.job->order().target;
        look_until_over(session);
        const std::string shown = "quay" + std::string(kHandOverKinds[kind].ending);
        EXPECT_EQ(session.notices.back().text, shown + " is written, in " + folder().string());
        EXPECT_TRUE(fs::exists(target)) << target;
    }
    std::ifstream sheet(folder() / "quay.html");
    EXPECT_NE(std::string(std::istreambuf_iterator<char>(sheet), {}).find("<h1>Quay, changed</h1>"), std::string::npos);
}

TEST_F(ProgramJobs, HandOverAsksBeforeItReplaces) {
    Session session = open_session({}, folder() / "kept");
    session.program = COUPLET_PROGRAM;
    ask(session, SaveSceneAs{folder() / "quay.toml"});
    write(folder() / "quay.html", "mine");
    ask(session, HandOver{0});
    EXPECT_FALSE(session.job);
    ASSERT_EQ(session.notices.back().text, "There is a file quay.html already.");
    EXPECT_EQ(fs::file_size(folder() / "quay.html"), 4U);
    ask(session, Answer{session.notices.size() - 1, 0});
    ASSERT_TRUE(session.job);
    ask(session, HandOver{2});
    EXPECT_EQ(session.notices.back().text, "quay.html is still being written: one at a time");
    look_until_over(session);
    EXPECT_GT(fs::file_size(folder() / "quay.html"), 10000U);
}

// Two drivers cannot be told in a robot description: the program's words come back.
TEST_F(ProgramJobs, HandOverTellsWhyItCannotBe) {
    Session session = open_session({}, folder() / "kept");
    session.program = COUPLET_PROGRAM;
    ask(session, SaveSceneAs{folder() / "quay.toml"});
    Draft draft = session.draft();
    Setting& setting = draft.train.settings.front();
    setting.hold.clear();
    setting.drive.push_back({*find_member(draft.train, "ring"), Ratio(10)});
    ask(session, ChangeDraft{"two drivers", draft, ""});
    const auto urdf = std::ranges::find(kHandOverKinds, ".urdf", &HandOverKind::ending) - kHandOverKinds.begin();
    ask(session, HandOver{static_cast<std::size_t>(urdf)});
    if (session.job) look_until_over(session);
    EXPECT_EQ(session.notices.back().text.find("quay.urdf is not written: "), 0U) << session.notices.back().text;
    EXPECT_FALSE(fs::exists(folder() / "quay.urdf"));
}

}  // namespace
}  // namespace couplet
