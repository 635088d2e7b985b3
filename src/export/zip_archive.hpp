// Zip archive: files packed into one, in memory; the same files give the same bytes.
//
// Source: minizip of zlib writes it; entries bear the first date that the format knows.
#pragma once

#include <string>
#include <string_view>

namespace couplet {

class ZipArchive {
  public:
    ZipArchive();
    ~ZipArchive();
    ZipArchive(const ZipArchive&) = delete;
    ZipArchive& operator=(const ZipArchive&) = delete;

    // Begins a file; what is added goes into it until the next one begins. Throws std::runtime_error where the archive
    // grows beyond what its format can hold.
    void begin(const std::string& name);
    void add(std::string_view bytes);
    // Closes the archive; nothing can be added afterwards.
    [[nodiscard]] std::string finish();

  private:
    void close_file();
    std::string bytes_;
    std::size_t at_ = 0;
    void* zip_ = nullptr;
    bool is_open_ = false;

    friend struct ArchiveMemory;
};

}  // namespace couplet
