#include "export/zip_archive.hpp"

#include <minizip/zip.h>

#include <stdexcept>

namespace couplet {

// The archive's string as what minizip calls a file.
struct ArchiveMemory {
    static ZipArchive& of(voidpf opaque) { return *static_cast<ZipArchive*>(opaque); }

    static voidpf open(voidpf opaque, const void* /*name*/, int /*mode*/) { return opaque; }
    static uLong read(voidpf /*opaque*/, voidpf /*stream*/, void* /*into*/, uLong /*size*/) { return 0; }
    static uLong write(voidpf opaque, voidpf /*stream*/, const void* from, uLong size) {
        ZipArchive& archive = of(opaque);
        if (archive.bytes_.size() < archive.at_ + size) archive.bytes_.resize(archive.at_ + size);
        archive.bytes_.replace(archive.at_, size, static_cast<const char*>(from), size);
        archive.at_ += size;
        return size;
    }
    static ZPOS64_T tell(voidpf opaque, voidpf /*stream*/) { return of(opaque).at_; }
    static long seek(voidpf opaque, voidpf /*stream*/, ZPOS64_T offset, int origin) {
        ZipArchive& archive = of(opaque);
        const std::size_t from = origin == ZLIB_FILEFUNC_SEEK_SET   ? 0
                                 : origin == ZLIB_FILEFUNC_SEEK_CUR ? archive.at_
                                                                    : archive.bytes_.size();
        archive.at_ = from + static_cast<std::size_t>(offset);
        return 0;
    }
    static int close(voidpf /*opaque*/, voidpf /*stream*/) { return 0; }
    static int error(voidpf /*opaque*/, voidpf /*stream*/) { return 0; }
};

namespace {

void require(int result) {
    if (result != ZIP_OK) throw std::runtime_error("the archive cannot be packed; give a coarser --tolerance");
}

}  // namespace

ZipArchive::ZipArchive() {
    zlib_filefunc64_def memory{};
    memory.zopen64_file = ArchiveMemory::open;
    memory.zread_file = ArchiveMemory::read;
    memory.zwrite_file = ArchiveMemory::write;
    memory.ztell64_file = ArchiveMemory::tell;
    memory.zseek64_file = ArchiveMemory::seek;
    memory.zclose_file = ArchiveMemory::close;
    memory.zerror_file = ArchiveMemory::error;
    memory.opaque = this;
    zip_ = zipOpen2_64("", APPEND_STATUS_CREATE, nullptr, &memory);
    if (zip_ == nullptr) throw std::bad_alloc();
}

ZipArchive::~ZipArchive() {
    if (zip_ != nullptr) zipClose(zip_, nullptr);
}

void ZipArchive::begin(const std::string& name) {
    close_file();
    zip_fileinfo info{};
    info.dosDate = (1U << 21U) | (1U << 16U);  // 1 January 1980
    require(zipOpenNewFileInZip(zip_, name.c_str(), &info, nullptr, 0, nullptr, 0, nullptr, Z_DEFLATED, Z_BEST_SPEED));
    is_open_ = true;
}

void ZipArchive::add(std::string_view bytes) {
    require(zipWriteInFileInZip(zip_, bytes.data(), static_cast<unsigned>(bytes.size())));
}

void ZipArchive::close_file() {
    if (is_open_) require(zipCloseFileInZip(zip_));
    is_open_ = false;
}

std::string ZipArchive::finish() {
    close_file();
    void* zip = zip_;
    zip_ = nullptr;
    require(zipClose(zip, nullptr));
    return std::move(bytes_);
}

}  // namespace couplet
