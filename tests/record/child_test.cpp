#include "record/child.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>

#include "record/own_folder.hpp"

namespace couplet {
namespace {

class FedChild : public OwnFolder {
  protected:
    // Run by the shell, in the test's folder.
    [[nodiscard]] std::vector<std::string> shell(const std::string& script) const {
        return {"-c", "cd '" + folder_.string() + "' && " + script};
    }
};

std::span<const std::uint8_t> bytes_of(const std::string& text) {
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}

TEST_F(FedChild, IsFedAllThatItIsGiven) {
    // More than any pipe holds.
    std::string fed(5'000'000, 'x');
    for (std::size_t i = 0; i < fed.size(); i += 7) fed[i] = static_cast<char>('a' + i % 26);
    Child cat("sh", shell("cat >got"));
    EXPECT_TRUE(cat.feed(bytes_of(fed.substr(0, 3))));
    EXPECT_TRUE(cat.feed(bytes_of(fed.substr(3))));
    EXPECT_TRUE(cat.feed({})) << "nothing is taken gladly";
    const Child::End end = cat.finish();
    EXPECT_TRUE(end.is_good());
    EXPECT_EQ(end.said, "");
    EXPECT_TRUE(read("got") == fed);
}

TEST_F(FedChild, ThatIsNotThereIsToldByItsName) {
    try {
        const Child absent("couplet-has-no-such-program", {});
        FAIL();
    } catch (const NoProgram& missing) {
        EXPECT_STREQ(missing.what(), "couplet-has-no-such-program");
    }
}

TEST_F(FedChild, ThatCannotRunIsNotMissing) {
    write("no_program", "#!/bin/sh\n");
    std::filesystem::permissions(in_folder("no_program"), std::filesystem::perms::owner_read);
    try {
        const Child child(in_folder("no_program").string(), {});
        FAIL();
    } catch (const NoProgram& missing) {
        ADD_FAILURE() << missing.what();
    } catch (const std::runtime_error& error) {
        EXPECT_NE(std::string(error.what()).find("cannot be started: "), std::string::npos) << error.what();
    }
}

TEST_F(FedChild, TellsItsStatusAndWhatItSaid) {
    Child child("sh", shell("echo heard; echo first words >&2; echo last words >&2; exit 7"));
    const Child::End end = child.finish();
    EXPECT_EQ(end.status, 7);
    EXPECT_EQ(end.signal, 0);
    EXPECT_FALSE(end.is_good());
    EXPECT_EQ(end.said, "first words\nlast words\n") << "standard output is not heard";
}

TEST_F(FedChild, TellsTheSignalThatEndedIt) {
    Child child("sh", shell("echo about to go >&2; kill -KILL $$"));
    const Child::End end = child.finish();
    EXPECT_EQ(end.signal, SIGKILL);
    EXPECT_FALSE(end.is_good());
    EXPECT_EQ(end.said, "about to go\n");
}

TEST_F(FedChild, KeepsTheLastOfManyWords) {
    Child child("sh", shell("i=0; while [ $i -lt 2000 ]; do echo line $i >&2; i=$((i+1)); done"));
    const Child::End end = child.finish();
    EXPECT_EQ(end.said.size(), Child::kMostSaid);
    EXPECT_EQ(end.said.substr(end.said.size() - 10), "line 1999\n");
}

TEST_F(FedChild, ThatDiesInTheMiddleTakesNoMore) {
    Child child("sh", shell("head -c 10 >got; echo the disk is full >&2; exit 5"));
    const std::string much(4'000'000, 'x');
    EXPECT_FALSE(child.feed(bytes_of(much))) << "and we are not ended by a broken pipe";
    EXPECT_FALSE(child.feed(bytes_of("more")));
    const Child::End end = child.finish();
    EXPECT_EQ(end.status, 5);
    EXPECT_EQ(end.said, "the disk is full\n");
    EXPECT_EQ(read("got"), "xxxxxxxxxx");
}

TEST_F(FedChild, EndsThoughAnotherOneRuns) {
    Child first("sh", shell("cat >first"));
    Child second("sh", shell("cat >second"));
    EXPECT_TRUE(first.feed(bytes_of("one")));
    EXPECT_TRUE(second.feed(bytes_of("two")));
    // It would wait for ever if the second one held the first one's input open.
    EXPECT_TRUE(first.finish().is_good());
    EXPECT_TRUE(second.finish().is_good());
    EXPECT_EQ(read("first") + read("second"), "onetwo");
}

TEST_F(FedChild, LeavesAnInterruptOfTheTerminalToUs) {
    Child child("sh", shell("cat >got"));
    EXPECT_EQ(getpgid(child.pid()), child.pid());
    EXPECT_NE(getpgid(child.pid()), getpgrp());
    EXPECT_TRUE(child.finish().is_good());
}

TEST_F(FedChild, StartsWithSignalsAsUsual) {
    // What its parent holds back or ignores would keep it from being ended.
    struct sigaction ignore {};
    struct sigaction before {};
    ignore.sa_handler = SIG_IGN;
    sigaction(SIGTERM, &ignore, &before);
    Child child("sh", shell("kill -TERM $$; exit 0"));
    sigaction(SIGTERM, &before, nullptr);
    EXPECT_EQ(child.finish().signal, SIGTERM);
}

// A pipe with a name ends for its reader only when all who write into it are gone.
TEST_F(FedChild, ThatIsDroppedIsGoneWithAllThatItStarted) {
    ASSERT_EQ(mkfifo(in_folder("alive").c_str(), 0600), 0);
    int alive = -1;
    char said = 0;
    {
        const Child child("sh", shell("exec 3>alive; sleep 1000 & printf r >&3; wait"));
        alive = open(in_folder("alive").c_str(), O_RDONLY);
        ASSERT_EQ(::read(alive, &said, 1), 1);
        EXPECT_EQ(said, 'r');
        pollfd still{alive, POLLIN, 0};
        EXPECT_EQ(poll(&still, 1, 0), 0) << "it runs";
    }
    pollfd ended{alive, POLLIN, 0};
    ASSERT_EQ(poll(&ended, 1, 20'000), 1) << "something still runs";
    EXPECT_EQ(::read(alive, &said, 1), 0);
    close(alive);
}

}  // namespace
}  // namespace couplet
