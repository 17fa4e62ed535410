namespace Shimwright.Bench.Photos;

/// <summary>What a picture must be before it is kept.</summary>
public static class PictureRules
{
    /// <summary>Refuses a picture without an id, or one that the bench has not made itself.</summary>
    /// <param name="id">The picture's id.</param>
    /// <param name="picture">The picture.</param>
    /// <exception cref="ArgumentException">It has no id, or was not made here.</exception>
    public static void Check(Guid id, Picture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (id == Guid.Empty || !picture.IsSound())
        {
            throw new ArgumentException("A picture has an id, and is made anew before it is kept.", nameof(picture));
        }
    }

    /// <summary>What is thrown where a picture is of a job that is not there.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The exception.</returns>
    public static ArgumentException NoJob(Guid job) => new($"There is no job {job}.", nameof(job));
}
