using Shimwright.Bench.Contents;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Facts;
using Shimwright.Testing.Benches;
using Shimwright.Testing.Pictures;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Photos;

public class PicturesTests
{
    private static readonly Picture Photo = ArrivedPicture.Photo(SamplePicture.Jpeg()).Picture!;

    [Theory]
    [OnEachBench]
    public async Task AddAsync_PhotoOfAJob_IsFoundThereAndNowhereElse(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync(), other = await test.Bench.StartJobAsync(), id = Guid.NewGuid(), logo = Guid.NewGuid();
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => test.Another().Pictures.AddAsync(id, job, Photo, Cancel), Cancel)));
        await test.Bench.Pictures.AddAsync(logo, null, Photo, Cancel);
        Assert.Equal([new PictureSize(id, Photo.Width, Photo.Height)], await test.Another().Pictures.OfJobAsync(job, Cancel));
        Picture found = (await test.Another().Pictures.FindAsync(id, job, Cancel))!;
        Assert.Equal((Photo.ContentType, Photo.Width, Photo.Height), (found.ContentType, found.Width, found.Height));
        Assert.Equal(Photo.Content, found.Content);
        Assert.Equal(Photo.Thumb, found.Thumb);
        Assert.NotNull(await test.Bench.Pictures.FindAsync(logo, null, Cancel));
        Assert.Null(await test.Bench.Pictures.FindAsync(id, other, Cancel));
        Assert.Null(await test.Bench.Pictures.FindAsync(id, null, Cancel));
        Assert.Empty(await test.Bench.Pictures.OfJobAsync(other, Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task AddAsync_WhatTheBenchHasNotMade_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.StartJobAsync();
        foreach (Picture wrong in new[] { Photo with { Content = "<svg/>"u8.ToArray() }, Photo with { Width = 1 }, Photo with { ContentType = "text/html" } })
        {
            await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.Pictures.AddAsync(Guid.NewGuid(), job, wrong, Cancel));
        }

        await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.Pictures.AddAsync(Guid.NewGuid(), Guid.NewGuid(), Photo, Cancel));
        Assert.Empty((await test.Bench.Copies.ContentsAsync(Cancel)).Pictures);
    }

    [Theory]
    [OnEachBench]
    public async Task Contents_WithPhotos_GoThroughAnArchiveIntoAnotherBench(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind), other = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync("Flood pump 9"), job = await test.Bench.StartJobAsync(engine), id = Guid.NewGuid();
        await test.Bench.Pictures.AddAsync(id, job, Photo, Cancel);
        await test.Bench.SaveAsync(job, new PhotoKept(id, "marks", "Both marks level", InRecord: true, Removed: false), new JobNumbered("2026-7"));
        BenchContents before = await test.Bench.Copies.ContentsAsync(Cancel);
        using MemoryStream archive = new();
        BenchArchive.Write(before, DateTime.UnixEpoch, archive);
        ReadArchive read = BenchArchive.Read(archive);
        Assert.Empty(read.Problems);
        Assert.True(await other.Bench.Copies.TakeInAsync(read.Contents!, null, Cancel));
        Assert.Equal(Photo.Content, (await other.Bench.Pictures.FindAsync(id, job, Cancel))!.Content);
        Assert.Equal("2026-7", (await other.Bench.FindJobAsync(job)).Number);
        Assert.Equal([new PhotoKept(id, "marks", "Both marks level", true, false)], (await other.Bench.FindJobAsync(job)).Sheet.Photos);
        Assert.Equal(2, (await other.Bench.FindJobAsync(await other.Bench.StartJobAsync())).Summary.Number);
        Assert.Equal(id, Assert.Single(before.Alone(engine).Pictures).Id);

        Assert.Empty(await other.Bench.Engines.RemoveAsync(engine, "Flood pump 9", Cancel));
        Assert.Empty((await other.Bench.Copies.ContentsAsync(Cancel)).Pictures);
    }

    /// <summary>A picture that is put into an archive by hand is not shown to anybody.</summary>
    [Fact]
    public async Task ContentRules_APictureThatNoBenchHasMade_IsNamed()
    {
        await using TestBench test = await TestBench.OfAsync(BenchKind.Memory);
        BenchContents contents = await test.Bench.Copies.ContentsAsync(Cancel);
        KeptPicture kept = new(Guid.NewGuid(), null, DateTime.UnixEpoch, Photo.ContentType, Photo.Width, Photo.Height, Photo.Content, Photo.Thumb);
        Assert.Empty(ContentRules.ProblemsOf(contents with { Pictures = [kept] }));
        Assert.NotEmpty(ContentRules.ProblemsOf(contents with { Pictures = [kept with { Content = SamplePicture.Jpeg(3000, 20) }] }));
        Assert.NotEmpty(ContentRules.ProblemsOf(contents with { Pictures = [kept with { Job = Guid.NewGuid() }] }));
    }
}
